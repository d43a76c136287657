import { LETTERS, type Letter } from '../../music/pitch.ts';

/** The moment of a pause at which the pedal of a letter is moved: no other pedal has the same. */
export const placeInPause = (letter: Letter): number => LETTERS.indexOf(letter);
