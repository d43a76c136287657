import type { Side } from '../harp/side.ts';
import { SLOWEST_SHARE } from '../score/slow-down.ts';

/** A move of a foot, or of a hand at a lever, at its clock time in printed order. */
export interface MoveAt {
  readonly side: Side;
  readonly seconds: number;
}

/** How many moves go without haste into a stretch of five seconds. */
export interface UnhurriedMoves {
  readonly both: number;
  readonly one: number;
}

/** The indices of the first and the last of moves that belong together. */
export type Stretch = readonly [first: number, last: number];

const STRETCH_SECONDS = 5;

/** In this time a harpist sets all seven pedals anew, one foot about one a second (common practice, no source). */
export const UNHURRIED_FEET: UnhurriedMoves = { both: 7, one: 5 };

/** A hand leaves the strings for each lever and comes back: less often than a foot moves (common practice, no source). */
export const UNHURRIED_HANDS: UnhurriedMoves = { both: 5, one: 4 };

/**
 * Stretches of five seconds in which feet or hands make more moves than they comfortably can. Stretches that overlap
 * are one.
 *
 * @param moves in order of time
 */
export const findHurriedStretches = (moves: readonly MoveAt[], most: UnhurriedMoves): readonly Stretch[] => {
  const stretches: [number, number][] = [];
  let first = 0;
  moves.forEach(({ seconds }, last) => {
    while (seconds - moves[first]!.seconds > STRETCH_SECONDS) first += 1;
    if (!isHurried(moves.slice(first, last + 1), most)) return;
    const before = stretches.at(-1);
    if (before !== undefined && first <= before[1]) before[1] = last;
    else stretches.push([first, last]);
  });
  return stretches;
};

/**
 * The fastest whole percentage of the tempo at which the same moves are hurried nowhere; null where even the slowest tempo
 * that is one of the piece ({@link SLOWEST_SHARE}) leaves too little time.
 *
 * @param moves hurried at the tempo that they are in, in order of time
 */
export const unhurriedPercent = (moves: readonly MoveAt[], { both, one }: UnhurriedMoves): number | null => {
  const ofSide = (side: Side): number =>
    shortestOf(
      moves.filter((move) => move.side === side),
      one + 1,
    );
  const shortest = Math.min(shortestOf(moves, both + 1), ofSide('left'), ofSide('right'));
  const percent = Math.ceil((100 * shortest) / STRETCH_SECONDS) - 1;
  return percent < 100 * SLOWEST_SHARE ? null : percent;
};

/** The shortest time that so many moves in succession take, from the first to the last; infinite where there are fewer. */
const shortestOf = (moves: readonly MoveAt[], count: number): number =>
  moves
    .slice(count - 1)
    .reduce(
      (least, { seconds }, i) => Math.min(least, seconds - moves[i]!.seconds),
      Number.POSITIVE_INFINITY,
    );

const isHurried = (moves: readonly MoveAt[], { both, one }: UnhurriedMoves): boolean => {
  const left = moves.filter(({ side }) => side === 'left').length;
  return moves.length > both || Math.max(left, moves.length - left) > one;
};
