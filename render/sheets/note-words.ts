import { accidentalSign, type Letter } from '../../engine/index.ts';
import { type NoteNaming, nameNote, type PrintedAlter } from '../markings/note-names.ts';

/** A pedal in a position, or a lever’s string, as it is named on the pages: `C♯`, `D♮`, `Cis`, `Do♯`. */
export const nameChange = (letter: Letter, position: PrintedAlter, naming: NoteNaming): string => {
  const { word, accidental } = nameNote(letter, position, naming);
  return accidental === null ? word : `${word}${accidentalSign(accidental)}`;
};

/** A note as words name it, a natural without its sign: `C♯`, `D`, `Cis`, `Do♯`. */
export const nameInWords = (letter: Letter, alter: PrintedAlter, naming: NoteNaming): string => {
  const { word, accidental } = nameNote(letter, alter, naming);
  return accidental === null || accidental === 0 ? word : `${word}${accidentalSign(accidental)}`;
};
