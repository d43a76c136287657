import { bisectRight } from 'd3-array';
import { type Rational, toNumber } from '../../music/rational.ts';
import type { Meter } from '../model/bar.ts';
import type { TempoMark } from '../model/tempo.ts';
import { isCompound, pulseLength } from './beats.ts';

/** Beats a minute where a score states no tempo: a moderate walk (no source). */
const ASSUMED_BEATS = 96;

/** The tempo of a score that states none, by its first meter: a compound one is felt in dotted beats. */
export const assumedTempo = (
  meter: Meter | undefined,
): { readonly quartersPerMinute: number; readonly inWords: string } => {
  if (meter === undefined || !isCompound(meter))
    return { quartersPerMinute: ASSUMED_BEATS, inWords: `${ASSUMED_BEATS} quarter notes a minute` };
  const pulse = toNumber(pulseLength(meter));
  const beat =
    pulse === 1.5 ? 'dotted quarter notes' : pulse === 0.75 ? 'dotted eighth notes' : 'dotted beats';
  return { quartersPerMinute: ASSUMED_BEATS * pulse, inWords: `${ASSUMED_BEATS} ${beat} a minute` };
};

/**
 * Turns score time into clock time.
 *
 * Between two tempo marks the tempo is steady: a gradual change counts as the marks that the score gives for it.
 *
 * @param tempo marks in order; the first counts from time 0 whatever its place
 * @returns the seconds from the start at a score time in printed order; logarithmic in the number of marks
 * @example buildClock([{ at: ZERO, quartersPerMinute: 60, origin: 'sound' }])(rational(3, 2)) // 1.5
 */
export const buildClock = (tempo: readonly TempoMark[]): ((at: Rational) => number) => {
  const starts: number[] = [];
  const seconds: number[] = [];
  const secondsPerQuarter: number[] = [];
  for (const [index, mark] of tempo.entries()) {
    const start = index === 0 ? 0 : toNumber(mark.at);
    const before = index - 1;
    seconds.push(index === 0 ? 0 : seconds[before]! + (start - starts[before]!) * secondsPerQuarter[before]!);
    starts.push(start);
    secondsPerQuarter.push(60 / mark.quartersPerMinute);
  }
  return (at) => {
    const time = toNumber(at);
    const mark = Math.max(0, bisectRight(starts, time) - 1);
    return seconds[mark]! + (time - starts[mark]!) * secondsPerQuarter[mark]!;
  };
};
