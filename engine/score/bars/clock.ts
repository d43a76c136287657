import { bisectRight } from 'd3-array';
import { type Rational, toNumber } from '../../music/rational.ts';
import type { TempoMark } from '../model.ts';

/** Quarter notes a minute where a score states no tempo: a moderate walk (no source). */
export const ASSUMED_TEMPO = 96;

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
