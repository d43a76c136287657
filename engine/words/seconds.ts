import { nameCount } from './counts.ts';

/** Whether a stretch of time is none to people: with so many digits it would be told as 0. */
export const isNoTime = (seconds: number, digits: number): boolean => Number(seconds.toFixed(digits)) === 0;

/** The stretch that moves take: `in 3.5 s`, or `at the same moment`. */
export const nameStretch = (seconds: number): string =>
  isNoTime(seconds, 1) ? 'at the same moment' : `in ${seconds.toFixed(1)} s`;

/**
 * How many moves a change of setting takes, and how long it is from the first to the last.
 *
 * @example nameMovesInTime(3, 0.5) // '3 moves, 0.5 s from the first to the last'
 */
export const nameMovesInTime = (moves: number, seconds: number): string => {
  const count = nameCount(moves, 'move');
  if (moves < 2) return count;
  return isNoTime(seconds, 2)
    ? `${count} at the same moment`
    : `${count}, ${Number(seconds.toFixed(2))} s from the first to the last`;
};
