import type { Position } from '../engine/harp/setting.ts';
import type { Letter } from '../engine/music/pitch.ts';
import type { NoteNaming } from './engraving-options.ts';

/** A note's name as printed: words, and the accidental that follows them, if any is drawn. */
export interface NoteName {
  readonly word: string;
  readonly accidental: Position | null;
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
 * The name of a pedal in a position. English and fixed-do names carry an accidental, the natural included, since a
 * change to natural must be told. German names are words: Cis, Ces, Es, As; B natural is H and B flat B.
 */
export const nameNote = (letter: Letter, position: Position, naming: NoteNaming): NoteName => {
  switch (naming) {
    case 'english':
      return { word: letter, accidental: position };
    case 'fixed-do':
      return { word: FIXED_DO[letter], accidental: position };
    case 'german':
      return { word: germanName(letter, position), accidental: null };
  }
};

const germanName = (letter: Letter, position: Position): string => {
  if (letter === 'B') return position === -1 ? 'B' : position === 0 ? 'H' : 'His';
  if (position === 1) return `${letter}is`;
  if (position === 0) return letter;
  return letter === 'E' || letter === 'A' ? `${letter}s` : `${letter}es`;
};
