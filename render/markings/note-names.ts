import type { Letter, Position } from '../../engine/index.ts';

/** How notes are named in letters: `C♯ D♭ B♮`, `Cis Des H`, `Do♯ Ré♭ Si♮`, or `Do♯ Re♭ Si♮`. */
export type NoteNaming = 'english' | 'german' | 'fixed-do' | 'italian';

/** What a printed name may carry: a string tuned sharp is a double sharp with its lever up. */
export type PrintedAlter = Position | 2;

/** The alteration as one that can be printed; any other is a bug and throws. */
export const printedAlter = (alter: number): PrintedAlter => {
  if (alter === -1 || alter === 0 || alter === 1 || alter === 2) return alter;
  throw new RangeError(`no string gives an alteration of ${alter}`);
};

/** A note's name as printed: words, and the accidental that follows them, if any is drawn. */
export interface NoteName {
  readonly word: string;
  readonly accidental: PrintedAlter | null;
}

const FIXED_DO: Readonly<Record<Letter, string>> = {
  C: 'Do',
  D: 'Ré',
  E: 'Mi',
  F: 'Fa',
  G: 'Sol',
  A: 'La',
  B: 'Si',
};

/**
 * The name of a pedal in a position, or of a string. English and fixed-do names carry an accidental, the natural included, since a
 * change to natural must be told. German names are words: Cis, Ces, Es, As; B natural is H and B flat B.
 */
export const nameNote = (letter: Letter, position: PrintedAlter, naming: NoteNaming): NoteName => {
  switch (naming) {
    case 'english':
      return { word: letter, accidental: position };
    case 'fixed-do':
      return { word: FIXED_DO[letter], accidental: position };
    case 'italian':
      return { word: letter === 'D' ? 'Re' : FIXED_DO[letter], accidental: position };
    case 'german':
      return { word: germanName(letter, position), accidental: null };
  }
};

/**
 * What a string is tuned to. German names of naturals are their letters: beside the name of a string, “D1 auf D” would say
 * nothing, so they have the sign here too. H needs none.
 */
export const nameTuned = (letter: Letter, position: PrintedAlter, naming: NoteNaming): NoteName =>
  naming === 'german' && position === 0 && letter !== 'B'
    ? { word: letter, accidental: position }
    : nameNote(letter, position, naming);

const germanName = (letter: Letter, position: PrintedAlter): string => {
  if (position === 2) return `${letter === 'B' ? 'H' : letter}isis`;
  if (letter === 'B') return position === -1 ? 'B' : position === 0 ? 'H' : 'His';
  if (position === 1) return `${letter}is`;
  if (position === 0) return letter;
  return letter === 'E' || letter === 'A' ? `${letter}s` : `${letter}es`;
};
