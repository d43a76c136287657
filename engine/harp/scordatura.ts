import { isLetter, letterAtStep, midiOf, type Pitch, stepOf } from '../music/pitch.ts';
import { fail, ok, type Result } from '../problem.ts';
import { type HarpString, isInRange, type StringRange } from './profile.ts';
import { isPosition } from './setting.ts';

/**
 * Strings tuned away from their own pitch before the piece, in cents (higher is positive), by name: `A4`. The pedal
 * still moves such a string by semitones: all its three pitches are shifted alike.
 */
export type Scordatura = ReadonlyMap<string, number>;

export const NO_SCORDATURA: Scordatura = new Map();

/** A string by its letter and octave, such as `C4`. */
export const nameString = ({ letter, octave }: HarpString): string => `${letter}${octave}`;

/** The string that a name such as `C4` tells; null for any other text. */
export const readString = (name: string): HarpString | null => {
  const letter = name.slice(0, 1);
  return /^[A-G]\d$/.test(name) && isLetter(letter) ? { letter, octave: Number(name.slice(1)) } : null;
};

/** A string tuned away from its own pitch, by so many cents; higher is positive. */
export interface RetunedString {
  readonly string: HarpString;
  readonly cents: number;
}

/** The strings that are tuned away from their pitch, as they were named. */
export const listRetuned = (strings: Scordatura): readonly RetunedString[] =>
  [...strings].map(([name, cents]) => ({ string: readString(name)!, cents }));

/** A string cannot be tuned farther than a semitone (a bound of ours: beyond it a neighbouring string serves). */
export const MAX_RETUNING_CENTS = 100;

/** Steps from the written letter at which a string can give the same sound; the written one first. */
const NEIGHBOURS = [0, -1, 1, -2, 2] as const;

/** Tunings nearer than this cannot be told apart by ear. */
const SAME_CENTS = 3;

/**
 * Every string and pedal position that sound a pitch, the written letter first; none for a microtone without a string
 * tuned to it.
 *
 * @returns pitches as the pedals name them: letter and octave of the string, the pedal's position as `alter`
 * @example stringsSounding(C quarter-sharp 4, new Map([['C4', 50]])) // C natural 4: the pedal stands at natural
 */
export const stringsSounding = (pitch: Pitch, scordatura: Scordatura): Pitch[] =>
  NEIGHBOURS.flatMap((steps): Pitch[] => {
    const string = letterAtStep(stepOf(pitch) + steps);
    const shift = scordatura.get(nameString(string)) ?? 0;
    const cents = 100 * (midiOf(pitch) - midiOf({ ...string, alter: 0 })) - shift;
    const alter = Math.round(cents / 100);
    return Math.abs(cents - 100 * alter) < SAME_CENTS && isPosition(alter) ? [{ ...string, alter }] : [];
  });

/**
 * Reads a list of strings with cents, such as `A4 +50, B3 -50`; either minus sign will do.
 *
 * @returns the tunings, or `bad-value` with the column of the first entry that is wrong or names a string again
 */
export const parseScordatura = (text: string): Result<Scordatura> => {
  const strings = new Map<string, number>();
  for (const match of text.matchAll(/[^,;]+/g)) {
    const [, letter = '', octave = '', sign = '', size = ''] =
      /^\s*([A-G])([0-9])\s+([+\-−]?)(\d{1,3}(?:\.\d{1,2})?)\s*$/.exec(match[0]) ?? [];
    const name = `${letter}${octave}`;
    const cents = Number(size) * (sign === '' || sign === '+' ? 1 : -1);
    if (!isLetter(letter) || Math.abs(cents) > MAX_RETUNING_CENTS || strings.has(name)) {
      return fail({
        code: 'bad-value',
        what: 'string with cents',
        value: match[0].trim(),
        line: 1,
        column: match.index + 1,
      });
    }
    if (cents !== 0) strings.set(name, cents);
  }
  return ok(strings);
};

/** Names of retuned strings that a harp does not have. */
export const stringsOutOfRange = (scordatura: Scordatura, range: StringRange): string[] =>
  [...scordatura.keys()].filter((name) => {
    const letter = name.slice(0, 1);
    return !isLetter(letter) || !isInRange(range, { letter, octave: Number(name.slice(1)) });
  });

/** In words: `A4 50 cents higher`. */
export const describeStringRetuning = (name: string, cents: number): string =>
  `${name} ${Math.abs(cents)} cents ${cents > 0 ? 'higher' : 'lower'}`;

/** Common practice, no source: strings are made for their own pitch, and the frame for the sum of their pull. */
export const RAISED_STRING_WARNING =
  'Raising a string above its pitch strains the string and the soundboard: ask a harp technician first.';
