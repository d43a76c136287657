import { type Rational, toNumber } from '../music/rational.ts';
import type { TempoMark } from './model.ts';

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
    const mark = lastAtOrBefore(starts, time);
    return seconds[mark]! + (time - starts[mark]!) * secondsPerQuarter[mark]!;
  };
};

/** Index of the last start that is not after `time`; 0 for a time before all of them. */
const lastAtOrBefore = (starts: readonly number[], time: number): number => {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (starts[middle]! <= time) low = middle;
    else high = middle - 1;
  }
  return low;
};
