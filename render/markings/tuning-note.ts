import {
  beatAt,
  nameString,
  type Plan,
  type RetunedString,
  type Score,
  type StringTuning,
} from '../../engine/index.ts';
import { drawRows } from '../draw/draw-rows.ts';
import type { Drawing } from '../draw/drawing.ts';
import { type RowItem, rowText } from '../draw/name-items.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { LANGUAGES, type Language } from '../words/language.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';
import type { MarkingPlace } from './markings.ts';
import { type NoteNaming, nameNote } from './note-names.ts';

/** What is to be tuned before the piece: strings that no pedal moves, and those that the user tunes otherwise. */
export type TuningNote = MarkingPlace & {
  readonly kind: 'tuning';
  readonly withoutDiscs: readonly StringTuning[];
  readonly retuned: readonly RetunedString[];
};

export const findTuningNote = (score: Score, { tunings, retuned }: Plan): TuningNote[] => {
  const [bar] = score.bars;
  if (bar === undefined || tunings.length + retuned.length === 0) return [];
  const place = { id: 'tuning-note', at: bar.onset, bar: 0, beat: beatAt(bar, bar.onset), graceNote: null };
  return [{ kind: 'tuning', withoutDiscs: tunings, retuned, ...place }];
};

/** What stands on one line, so that the note is not wider than a page. */
const MOST_IN_LINE = 4;

/**
 * The note in lines. That no pedal moves the strings without discs is said: the setting below may show their letter
 * elsewhere.
 */
const linesOf = (
  { withoutDiscs, retuned }: TuningNote,
  naming: NoteNaming,
  { tuning }: Words,
): RowItem[][] => {
  const strings = withoutDiscs.map(({ string: { letter, octave }, alter }): RowItem[] => [
    { kind: 'words', text: tuning.onMusic.to(`${nameNote(letter, 0, naming).word}${octave}`) },
    { kind: 'name', letter, position: alter, ringed: false, isTuned: true },
  ]);
  const cents = retuned.map(({ string, cents }): RowItem[] => [
    { kind: 'words', text: tuning.retuned(nameString(string), cents) },
  ]);
  return [...inLines(tuning.onMusic.withoutPedal, strings), ...inLines(tuning.onMusic.byCents, cents)];
};

const inLines = (lead: string, entries: readonly RowItem[][]): RowItem[][] => {
  const lines = Array.from({ length: Math.ceil(entries.length / MOST_IN_LINE) }, (_, i) =>
    entries.slice(i * MOST_IN_LINE, (i + 1) * MOST_IN_LINE).flatMap(withComma),
  );
  return lines.map((line, i) => (i === 0 ? [{ kind: 'words', text: lead }, ...line] : line));
};

const withComma = (entry: RowItem[], index: number): RowItem[] =>
  index === 0 ? entry : [{ kind: 'words', text: '·' }, ...entry];

export const drawTuningNote = (
  note: TuningNote,
  { language, naming }: Pick<EngravingOptions, 'language' | 'naming'>,
): Drawing => drawRows(linesOf(note, naming, wordsOf({ language })), naming, 'left');

/** The note as lines of words, with the names of notes of their language. */
export const tuningLines = (note: TuningNote, language: Language = 'english'): string[] => {
  const { naming } = LANGUAGES[language];
  return linesOf(note, naming, wordsOf({ language })).map((line) => rowText(line, naming));
};
