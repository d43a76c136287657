import { keyAlter, type Letter, letterAtStep, type Pitch, stepOf } from '../../music/pitch.ts';

/**
 * What an unmarked notehead means at a place in a bar: the accidentals written earlier in the bar at the same octave,
 * else the key signature (common practice, no source; MEI Guidelines leave it to the reader).
 */
export interface BarAccidentals {
  /** Remembers a written accidental until the bar ends. */
  readonly write: (letter: Letter, octave: number, alter: number) => void;
  /** What the letter means in this octave now. */
  readonly alterOf: (letter: Letter, octave: number) => number;
  /** The pitch `steps` staff steps away from a note as an unmarked ornament means it. */
  readonly neighbour: (pitch: Pitch, steps: number) => Pitch;
}

/** Starts a bar whose key signature has `keyFifths` sharps (negative: flats). */
export const startBar = (keyFifths: number): BarAccidentals => {
  const written = new Map<string, number>();
  const alterOf = (letter: Letter, octave: number): number =>
    written.get(`${letter}${octave}`) ?? keyAlter(keyFifths, letter);
  return {
    write: (letter, octave, alter) => {
      written.set(`${letter}${octave}`, alter);
    },
    alterOf,
    neighbour: (pitch, steps) => {
      const { letter, octave } = letterAtStep(stepOf(pitch) + steps);
      return { letter, octave, alter: alterOf(letter, octave) };
    },
  };
};
