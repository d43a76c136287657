import { accidentalSign, type Letter, type Pitch, pitchName, spelledName } from '../../engine/index.ts';
import {
  type NoteName,
  type NoteNaming,
  nameNote,
  nameTuned,
  type PrintedAlter,
} from '../markings/note-names.ts';
import type { Words } from '../words/worded.ts';

/** A pedal in a position, or a lever’s string, as it is named on the pages: `C♯`, `D♮`, `Cis`, `Do♯`. */
export const nameChange = (letter: Letter, position: PrintedAlter, naming: NoteNaming): string =>
  withSign(nameNote(letter, position, naming));

/** What a string is tuned to: a natural with its sign in any naming. */
export const nameTunedTo = (letter: Letter, position: PrintedAlter, naming: NoteNaming): string =>
  withSign(nameTuned(letter, position, naming));

const withSign = ({ word, accidental }: NoteName): string =>
  accidental === null ? word : `${word}${accidentalSign(accidental)}`;

/** A note as words name it, a natural without its sign: `C♯`, `D`, `Cis`, `Do♯`. */
export const nameInWords = (letter: Letter, alter: PrintedAlter, naming: NoteNaming): string => {
  const { word, accidental } = nameNote(letter, alter, naming);
  return accidental === null || accidental === 0 ? word : `${word}${accidentalSign(accidental)}`;
};

/** A pitch as words name it, with the number of its octave: `C♯4`, `Cis4`, `Do♯4`; C4 is the middle C everywhere. */
export const namePitch = (pitch: Pitch, naming: NoteNaming): string =>
  nameGerman(pitch, naming, `${pitch.octave}`) ??
  `${nameInWords(pitch.letter, 0, naming)}${pitchName(pitch).slice(1)}`;

/** A note in whatever octave: `C♯`, `Cis`, `Do♯`. */
export const nameSpelledNote = (note: Pick<Pitch, 'letter' | 'alter'>, naming: NoteNaming): string =>
  nameGerman(note, naming, '') ?? `${nameInWords(note.letter, 0, naming)}${spelledName(note).slice(1)}`;

/** Null for other namings, and for notes that have no German name of their own. */
const nameGerman = (
  { letter, alter }: Pick<Pitch, 'letter' | 'alter'>,
  naming: NoteNaming,
  octave: string,
): string | null =>
  naming === 'german' && (alter === -1 || alter === 0 || alter === 1 || alter === 2)
    ? `${nameInWords(letter, alter, naming)}${octave}`
    : null;

/** How a table with pitches is read. */
export const withOctaves = (legend: string, naming: NoteNaming, { study }: Words): string =>
  `${legend} ${study.octaves(namePitch({ letter: 'C', alter: 0, octave: 4 }, naming))}`;
