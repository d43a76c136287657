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
  readonly name: string;
  /** Strings without discs: tuned by hand before the piece, the pedals do not act on them. */
  readonly fixed: readonly HarpString[];
}

/** The concert harp: 47 strings C1 to G7 (Widor, *Initiation musicale*, 1923); C1, D1 and G7 without discs (common practice). */
export const CONCERT_HARP: PedalHarpProfile = {
  kind: 'pedal',
  name: 'concert harp, 47 strings',
  lowest: { letter: 'C', octave: 1 },
  highest: { letter: 'G', octave: 7 },
  fixed: [
    { letter: 'C', octave: 1 },
    { letter: 'D', octave: 1 },
    { letter: 'G', octave: 7 },
  ],
};

/**
 * The harp of 46 strings, C1 to F7 (K. W. Gehrkens, *Music Notation and Terminology*, 1914, App. B: 46 strings from
 * C flat to F flat; the strings without discs: common practice, no source).
 */
export const PEDAL_HARP_46: PedalHarpProfile = {
  kind: 'pedal',
  name: 'pedal harp, 46 strings',
  lowest: { letter: 'C', octave: 1 },
  highest: { letter: 'F', octave: 7 },
  fixed: [
    { letter: 'C', octave: 1 },
    { letter: 'D', octave: 1 },
  ],
};

/** The harp of 44 strings, C1 to D7 (from memory, no source). */
export const PEDAL_HARP_44: PedalHarpProfile = {
  kind: 'pedal',
  name: 'pedal harp, 44 strings',
  lowest: { letter: 'C', octave: 1 },
  highest: { letter: 'D', octave: 7 },
  fixed: [
    { letter: 'C', octave: 1 },
    { letter: 'D', octave: 1 },
  ],
};

/** The harp of 40 strings, G1 to D7, discs on all (from memory, no source). */
export const PEDAL_HARP_40: PedalHarpProfile = {
  kind: 'pedal',
  name: 'pedal harp, 40 strings',
  lowest: { letter: 'G', octave: 1 },
  highest: { letter: 'D', octave: 7 },
  fixed: [],
};

export const isInRange = (profile: StringRange, string: HarpString): boolean =>
  stepOf(string) >= stepOf(profile.lowest) && stepOf(string) <= stepOf(profile.highest);

/** Whether a string keeps its pitch throughout: no pedal or lever changes it. */
export const isFixedString = (
  { fixed }: { readonly fixed: readonly HarpString[] },
  string: HarpString,
): boolean => fixed.some((each) => each.letter === string.letter && each.octave === string.octave);

/** The string that gives a pitch: the one of its letter and octave. */
export const stringOf = (pitch: Pitch): HarpString => ({ letter: pitch.letter, octave: pitch.octave });
