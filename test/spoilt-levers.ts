import type { LeverMarking } from '../engine/score/model/markings.ts';
import type { Score } from '../engine/score/model/score.ts';
import { openScore } from '../engine/score/open.ts';
import type { Draw } from './engine/proof/plant-faults.ts';

/** A score file of ours for a lever harp, read; its lever words are those of the file. */
const reread = (text: string): Score => {
  const opened = openScore(new TextEncoder().encode(text));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

const pick = <T>(draw: Draw, from: readonly T[]): T | undefined => from[draw(from.length)];

const changesOf = ({ leverWords }: Score): readonly LeverMarking[] =>
  leverWords.filter(({ says }) => says !== null && !says.isTable);

const tableOf = ({ leverWords }: Score): LeverMarking | undefined =>
  leverWords.find(({ says }) => says?.isTable === true && says.names.length > 0);

/** The text of a score with one marking written otherwise. */
const rewrite = ({ source: { text } }: Score, { span }: LeverMarking, change: (element: string) => string) =>
  text.slice(0, span.start) + change(text.slice(span.start, span.end)) + text.slice(span.end);

const NAME = /([A-G])([♭♮♯])(\d)/gu;

/** The marking with one of its names written otherwise; null where that is no name of the harp's. */
const withName = (
  score: Score,
  draw: Draw,
  change: (letter: string, sign: string, octave: number) => string | null,
): string | null => {
  const marking = pick(draw, changesOf(score));
  if (marking === undefined) return null;
  const { text } = score.source;
  const names = [...text.slice(marking.span.start, marking.span.end).matchAll(NAME)];
  const name = pick(draw, names);
  if (name === undefined) return null;
  const becomes = change(name[1]!, name[2]!, Number(name[3]));
  if (becomes === null) return null;
  return rewrite(
    score,
    marking,
    (element) => element.slice(0, name.index) + becomes + element.slice(name.index + name[0].length),
  );
};

/** The marking at the beginning of another bar. */
const inBar = (score: Score, draw: Draw, by: number): string | null => {
  const marking = pick(draw, changesOf(score));
  const bar = marking === undefined ? undefined : score.bars[marking.bar + by];
  if (marking === undefined || bar === undefined) return null;
  const { text } = score.source;
  const element = text.slice(marking.span.start, marking.span.end);
  const start = text.indexOf('>', bar.span.start) + 1;
  const put = element.replace(/<offset>.*?<\/offset>/u, '').replace(/ id="[^"]*"/u, '');
  const [first, second] = [marking.span, { start, end: start }].sort((a, b) => a.start - b.start);
  const piece = (span: { start: number }): string => (span === marking.span ? '' : put);
  return (
    text.slice(0, first!.start) +
    piece(first!) +
    text.slice(first!.end, second!.start) +
    piece(second!) +
    text.slice(second!.end)
  );
};

/** What goes wrong when lever markings are written, each a way to spoil a MusicXML text: null where it cannot be. */
const FAULT_KINDS = {
  'a marking left out': (score: Score, draw: Draw) => {
    const marking = pick(draw, changesOf(score));
    return marking === undefined ? null : rewrite(score, marking, () => '');
  },
  'a wrong sign': (score: Score, draw: Draw) =>
    withName(score, draw, (letter, sign, octave) => `${letter}${sign === '♮' ? '♯' : '♮'}${octave}`),
  'the octave beside': (score: Score, draw: Draw) =>
    withName(score, draw, (letter, sign, octave) => `${letter}${sign}${octave === 5 ? 4 : octave + 1}`),
  'the letter beside': (score: Score, draw: Draw) =>
    withName(
      score,
      draw,
      (letter, sign, octave) =>
        `${letter === 'G' ? 'F' : letter === 'B' ? 'A' : String.fromCharCode(letter.charCodeAt(0) + 1)}${sign}${octave}`,
    ),
  'a marking a bar late': (score: Score, draw: Draw) => inBar(score, draw, 1),
  'a marking a bar early': (score: Score, draw: Draw) => inBar(score, draw, -1),
  'a marking twice': (score: Score, draw: Draw) => {
    const marking = pick(draw, changesOf(score));
    return marking === undefined
      ? null
      : rewrite(score, marking, (element) => element + element.replace(/ id="[^"]*"/u, ''));
  },
  'a name left out of the table': (score: Score, draw: Draw) => {
    const table = tableOf(score);
    if (table === undefined) return null;
    const { text } = score.source;
    const names = [...text.slice(table.span.start, table.span.end).matchAll(/, [A-G][♭♮♯]\d/gu)];
    const name = pick(draw, names);
    return name === undefined
      ? null
      : rewrite(
          score,
          table,
          (element) => element.slice(0, name.index) + element.slice(name.index + name[0].length),
        );
  },
} as const;

/** Spoils the lever markings of a MusicXML score. */
export const plantLeverFaults = (
  score: Score,
  count: number,
  draw: Draw,
): { readonly score: Score; readonly planted: readonly string[] } => {
  let spoilt = score;
  const planted: string[] = [];
  const kinds = Object.keys(FAULT_KINDS) as (keyof typeof FAULT_KINDS)[];
  while (planted.length < count) {
    const kind = pick(draw, kinds)!;
    const text = FAULT_KINDS[kind](spoilt, draw);
    if (text === null) continue;
    spoilt = reread(text);
    planted.push(kind);
  }
  return { score: spoilt, planted };
};
