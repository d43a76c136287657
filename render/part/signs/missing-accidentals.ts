import {
  type Bar,
  descendantsNamed,
  isLetter,
  type Letter,
  type Note,
  type Score,
  startBar,
  type XmlElement,
} from '../../../engine/index.ts';
import { type Edit, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { followPrintedKeys } from './printed-keys.ts';

/** Accidentals that a page needs and its file does not print. */
export interface MissingAccidentals {
  readonly edits: readonly Edit[];
  /** Indices of the bars they stand in, one for each note. */
  readonly bars: readonly number[];
}

const NONE: MissingAccidentals = { edits: [], bars: [] };

/** MEI 5.1, data.ACCIDENTAL.WRITTEN. */
const SIGNS = new Map([
  [-2, 'ff'],
  [-1.5, '3qf'],
  [-1, 'f'],
  [-0.5, '1qf'],
  [0, 'n'],
  [0.5, '1qs'],
  [1, 's'],
  [1.5, '3qs'],
  [2, 'x'],
]);

/**
 * Accidentals for the notes that sound otherwise than a reader of the page would take them: MusicXML may state what
 * sounds (`alter`) without what is printed (`accidental`), MEI `accid.ges` without `accid`. A page without the sign would
 * have the player pluck another string.
 *
 * Left as they are: bars with a key signature inside them, and files whose key signatures are not of the usual ones.
 */
export const findMissingAccidentals = (score: Score, mei: LayoutMei): MissingAccidentals => {
  if (descendantsNamed(mei.root, 'keyAccid').length > 0) return NONE;
  const elements = new Map(descendantsNamed(mei.root, 'note').map((note) => [note.span.start, note]));
  const elementOf = (note: Note): XmlElement | undefined => elements.get(mei.tagOf(note) ?? -1);
  const keyAt = followPrintedKeys(mei);
  const found = barsAndStaves(score).flatMap(({ bar, notes }) => {
    const measure = mei.measureOf(bar);
    if (measure === undefined || descendantsNamed(measure, 'keySig').length > 0) return [];
    const key = keyAt(measure, mei.staves[notes[0]!.staff - 1] ?? '') ?? bar.keyFifths;
    const written = notes.flatMap((note) => writtenNote(score, note, elementOf(note)));
    return missingInBar(bar.index, key, written, mei.text);
  });
  return { edits: found.map(({ edit }) => edit), bars: found.map(({ bar }) => bar) };
};

/** The notes of each staff in each bar, in playing order. */
const barsAndStaves = (score: Score): readonly { readonly bar: Bar; readonly notes: readonly Note[] }[] => {
  const groups = new Map<string, { bar: Bar; notes: Note[] }>();
  for (const note of score.notes) {
    if (note.role === 'hidden') continue;
    const key = `${note.bar} ${note.staff}`;
    const group = groups.get(key) ?? { bar: score.bars[note.bar]!, notes: [] };
    groups.set(key, group);
    group.notes.push(note);
  }
  return [...groups.values()];
};

/** A note as the page has it, with the alteration that it is written to have. */
interface WrittenNote {
  readonly element: XmlElement;
  readonly letter: Letter;
  readonly octave: number;
  readonly alter: number;
  readonly isTied: boolean;
}

/** None where the page has no such note, or where what sounds tells nothing of the signs: in MEI of a transposed part. */
const writtenNote = (score: Score, note: Note, element: XmlElement | undefined): WrittenNote[] => {
  const letter = element?.attributes.pname?.toUpperCase() ?? '';
  const octave = Number(element?.attributes.oct);
  if (element === undefined || !isLetter(letter) || !Number.isInteger(octave)) return [];
  const sounding = note.harmonic?.string ?? note.pitch;
  if (score.source.format === 'mei' && sounding.letter !== letter) return [];
  const alter = score.source.format === 'mei' ? sounding.alter : alterInMusicXml(score, note);
  return [{ element, letter, octave, alter, isTied: note.tiedFrom !== null }];
};

/** MusicXML states the alteration of the written pitch at every note. */
const alterInMusicXml = ({ source }: Score, { span }: Note): number =>
  Number(/<(?:[\w-]+:)?alter\s*>\s*([-+\d.]+)\s*</.exec(source.text.slice(span.start, span.end))?.[1] ?? 0);

const missingInBar = (
  bar: number,
  key: number,
  notes: readonly WrittenNote[],
  text: string,
): readonly { readonly bar: number; readonly edit: Edit }[] => {
  const accidentals = startBar(key);
  return notes.flatMap(({ element, letter, octave, alter, isTied }) => {
    const isPrinted = signsOf(element).some(({ attributes }) => attributes.accid !== undefined);
    const isPlain = isTied || accidentals.alterOf(letter, octave) === alter;
    if (!isPrinted && isPlain) return [];
    accidentals.write(letter, octave, alter);
    const sign = SIGNS.get(alter);
    if (isPrinted || sign === undefined) return [];
    const holder = descendantsNamed(element, 'accid')[0] ?? element;
    return [{ bar, edit: setAttribute(text, holder.span.start, 'accid', sign) }];
  });
};

const signsOf = (note: XmlElement): readonly XmlElement[] => [note, ...descendantsNamed(note, 'accid')];
