import { add, divide, multiply, type Rational, rational, subtract } from '../../music/rational.ts';
import type { Bar, Meter } from '../model/bar.ts';

/**
 * The length of a beat in quarter notes: the meter's denominator, as parts and conductors' directions number beats, so
 * that “beat 4” of 6/8 is its fourth eighth (common practice, no source; MEI 5.1 counts `tstamp` so). All that is shown
 * or read names beats so; what is counted aloud is in `counts.ts`.
 */
export const beatLength = ({ beatUnit }: Pick<Meter, 'beatUnit'>): Rational => rational(4, beatUnit);

/** The length of a whole bar in quarter notes. */
export const barLength = ({ beats, beatUnit }: Meter): Rational => rational(4 * beats, beatUnit);

/** The beat of the bar at which a score time falls, from 1. */
export const beatAt = (bar: Pick<Bar, 'onset' | 'meter'>, at: Rational): Rational =>
  add(rational(1), divide(subtract(at, bar.onset), beatLength(bar.meter)));

/** How long after the start of its bar a beat comes, in quarter notes. */
export const beatOffset = (meter: Meter, beat: Rational): Rational =>
  multiply(subtract(beat, rational(1)), beatLength(meter));

/**
 * The length of a pulse in quarter notes: a compound meter (6/8, 9/8, 12/8) is felt in threes of its beats. Feet move
 * with the pulse, and players count it (`counts.ts`).
 */
export const pulseLength = (meter: Meter): Rational =>
  multiply(rational(isCompound(meter) ? 3 : 1), beatLength(meter));

/** @example isCompound({ beats: 6, beatUnit: 8 }) // true; 3/8 is not */
export const isCompound = ({ beats, beatUnit }: Meter): boolean =>
  beatUnit >= 8 && beats > 3 && beats % 3 === 0;
