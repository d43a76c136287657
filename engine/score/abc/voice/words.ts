import { readAbcText } from '../book/abc-text.ts';
import type { ParsedEvent, ParsedTempo } from '../parsed-tune.ts';
import type { BarMark, Jump } from '../tune.ts';
import { exactLength, splitLength } from './lengths.ts';

/** The name of a chord: a letter, what it is built of, a bass note. */
const CHORD =
  /^\(?[A-Ga-g][♯♭#b]?(?:maj|min|mi|ma|dim|aug|sus|add|alt|no|omit|d(?![a-z])|m|M|[°ø∆+\-–^()0-9♯♭#b,])*(?:\/[A-Ga-g]?[♯♭#b+]?)?\)?$/u;

/** Words that lead elsewhere, however the file puts them. */
const JUMP_WORDS: readonly (readonly [RegExp, Jump])[] = [
  [/^d\.? ?c\.?(?: |$)|^da capo/iu, 'da-capo'],
  [/^d\.? ?s\.?(?: |$)|^dal segno/iu, 'dal-segno'],
  [/^fine\.?$/iu, 'fine'],
  [/^to coda/iu, 'to-coda'],
];

/** What the quoted words of an event are: chord symbols, words that lead elsewhere, or other words. */
export interface QuotedWords {
  readonly chordSymbols: readonly string[];
  readonly jumps: readonly { readonly jump: Jump; readonly text: string }[];
  readonly texts: readonly { readonly text: string; readonly below: boolean }[];
}

/** Sorts the words in quotation marks at a note or bar line (ABC 2.1, 4.18 and 4.19). */
export const readQuoted = (quoted: ParsedEvent['chord']): QuotedWords => {
  const all = (quoted ?? []).flatMap(({ name, position }) =>
    name
      .split('\n')
      .map((text) => ({ text: readAbcText(text), position }))
      .filter(({ text }) => text !== ''),
  );
  const isChord = ({ text, position }: (typeof all)[number]): boolean =>
    position === 'default' && CHORD.test(text);
  const jumps = all.flatMap(({ text }) => {
    const jump = JUMP_WORDS.find(([pattern]) => pattern.test(text))?.[1];
    return jump === undefined ? [] : [{ jump, text }];
  });
  return {
    chordSymbols: all.filter(isChord).map(({ text }) => text),
    jumps,
    texts: all
      .filter((each) => !isChord(each) && !jumps.some(({ text }) => text === each.text))
      .map(({ text, position }) => ({ text, below: position === 'below' })),
  };
};

/** Beats a minute that a tempo may state. */
const SLOWEST = 5;
const FASTEST = 1000;

/** A tempo as it is printed; null for one that says nothing. */
export const readTempo = (tempo: ParsedTempo): Omit<Extract<BarMark, { kind: 'tempo' }>, 'at'> | null => {
  const text = readAbcText(
    [tempo.preString, tempo.postString].filter((each) => each !== undefined).join(' '),
  );
  const beat = exactLength((tempo.duration ?? []).reduce((sum, each) => sum + each, 0));
  const split = beat === null || beat.num === 0 ? null : splitLength(beat);
  const value = split !== null && split.odd === null && split.values.length === 1 ? split.values[0]! : null;
  const bpm = tempo.bpm ?? 0;
  if (value !== null && bpm >= SLOWEST && bpm <= FASTEST)
    return { kind: 'tempo', text, beat: value, perMinute: bpm };
  return text === '' ? null : { kind: 'tempo', text, beat: null, perMinute: 0 };
};
