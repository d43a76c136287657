import { type Letter, type Pitch, stepOf } from '../music/pitch.ts';

/** One string by its letter and octave; its pitch depends on the pedal. */
export interface HarpString {
  readonly letter: Letter;
  readonly octave: number;
}

/** The strings of a harp run through all letters from the lowest to the highest. */
export interface StringRange {
  readonly lowest: HarpString;
  readonly highest: HarpString;
}

/** A pedal harp: which strings it has, and which of them no pedal reaches. */
export interface PedalHarpProfile extends StringRange {
  readonly kind: 'pedal';
  /** In words, with the number of its strings. */
  readonly name: string;
  /** Strings without discs: tuned by hand before the piece, the pedals do not act on them. */
  readonly fixed: readonly HarpString[];
}

/** Nothing but the lowest and the highest string, of what may say more. */
export const rangeOf = ({ lowest, highest }: StringRange): StringRange => ({ lowest, highest });

export const isInRange = (profile: StringRange, string: HarpString): boolean =>
  stepOf(string) >= stepOf(profile.lowest) && stepOf(string) <= stepOf(profile.highest);

/** Whether a string keeps its pitch throughout: no pedal or lever changes it. */
export const isFixedString = (
  { fixed }: { readonly fixed: readonly HarpString[] },
  string: HarpString,
): boolean => fixed.some((each) => each.letter === string.letter && each.octave === string.octave);

/** The string that gives a pitch: the one of its letter and octave. */
export const stringOf = (pitch: Pitch): HarpString => ({ letter: pitch.letter, octave: pitch.octave });
