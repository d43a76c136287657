import type { Side } from '../harp/side.ts';

/** A move of a foot, at its clock time in printed order. */
export interface FootMoveAt {
  readonly foot: Side;
  readonly seconds: number;
}

/** In this time a harpist sets all seven pedals anew, and no more (common practice, no source). */
const STRETCH_SECONDS = 5;
/** The pedals that there are: a whole new setting. */
const MOST_OF_BOTH = 7;
/** One foot goes from pedal to pedal about once a second without haste (common practice, no source). */
const MOST_OF_ONE = 5;

/**
 * Stretches in which the feet make more moves than they comfortably can: within five seconds more than a whole new
 * setting takes, or one foot more than one a second. Stretches that overlap are one.
 *
 * @param moves in order of time
 * @returns indices of the first and the last move of each stretch
 */
export const findHurriedStretches = (
  moves: readonly FootMoveAt[],
): readonly (readonly [number, number])[] => {
  const stretches: [number, number][] = [];
  let first = 0;
  moves.forEach(({ seconds }, last) => {
    while (seconds - moves[first]!.seconds > STRETCH_SECONDS) first += 1;
    if (!isHurried(moves, first, last)) return;
    const before = stretches.at(-1);
    if (before !== undefined && first <= before[1]) before[1] = last;
    else stretches.push([first, last]);
  });
  return stretches;
};

const isHurried = (moves: readonly FootMoveAt[], first: number, last: number): boolean => {
  const count = last - first + 1;
  if (count > MOST_OF_BOTH) return true;
  if (count <= MOST_OF_ONE) return false;
  const left = moves.slice(first, last + 1).filter(({ foot }) => foot === 'left').length;
  return Math.max(left, count - left) > MOST_OF_ONE;
};
