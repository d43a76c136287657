import { type Letter, type Pitch, stepOf } from '../music/pitch.ts';

/** One string by its letter and octave; its pitch depends on the pedal. */
export interface HarpString {
  readonly letter: Letter;
  readonly octave: number;
}

/** A pedal harp: which strings it has, and which of them no pedal reaches. */
export interface PedalHarpProfile {
  readonly name: string;
  readonly lowest: HarpString;
  readonly highest: HarpString;
  /** Strings without discs: tuned by hand before the piece, the pedals do not act on them. */
  readonly fixed: readonly HarpString[];
}

/** The concert harp: 47 strings C1 to G7 (Widor, *Initiation musicale*, 1923); C1, D1 and G7 without discs (common practice). */
export const CONCERT_HARP: PedalHarpProfile = {
  name: 'concert harp, 47 strings',
  lowest: { letter: 'C', octave: 1 },
  highest: { letter: 'G', octave: 7 },
  fixed: [
    { letter: 'C', octave: 1 },
    { letter: 'D', octave: 1 },
    { letter: 'G', octave: 7 },
  ],
};

export const isInRange = (profile: PedalHarpProfile, string: HarpString): boolean =>
  stepOf(string) >= stepOf(profile.lowest) && stepOf(string) <= stepOf(profile.highest);

export const isFixedString = (profile: PedalHarpProfile, string: HarpString): boolean =>
  profile.fixed.some((fixed) => fixed.letter === string.letter && fixed.octave === string.octave);

/** The string that gives a pitch: the one of its letter and octave. */
export const stringOf = (pitch: Pitch): HarpString => ({ letter: pitch.letter, octave: pitch.octave });
