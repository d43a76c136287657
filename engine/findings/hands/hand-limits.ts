import type { StringRange } from '../../harp/profile.ts';

/** Four fingers of each hand play; the little finger does not (K. W. Gehrkens, *Music Notation and Terminology*, 1914, App. B). */
export const FINGERS = 4;

/** A tenth in steps of the staff: common between thumb and fourth finger (The Harp Legacy Project, Typical Compositional Issues). */
export const TENTH_STEPS = 9;

/** Useful strings for harmonics, C3 to A5 (T. Goss, 100 Orchestration Tips, no. 68): advice, not a limit. */
export const HARMONIC_STRINGS: StringRange = {
  lowest: { letter: 'C', octave: 3 },
  highest: { letter: 'A', octave: 5 },
};

/** Harmonics at once: two in the left hand, one in the right (N. Rimsky-Korsakov, *Principles of Orchestration*, from memory). */
export const HARMONICS_IN_HAND = { right: 1, left: 2 } as const;
