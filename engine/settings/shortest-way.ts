import { FEET, type Foot, type Position, type Setting } from '../harp/setting.ts';
import { isCrossed } from '../harp/setting-sound.ts';
import { SIDES } from '../harp/side.ts';
import type { Letter } from '../music/pitch.ts';

/** One pedal is moved on the way. */
export interface WayMove {
  readonly letter: Letter;
  readonly foot: Foot;
  readonly from: Position;
  readonly to: Position;
}

/** What both feet do at one time: each at most one move. */
export interface WayStep {
  /** Clock time since the first move, in seconds. */
  readonly seconds: number;
  /** The left foot's before the right foot's. */
  readonly moves: readonly WayMove[];
  /** Where the pedals stand after them. */
  readonly setting: Setting;
}

/** How long the shortest way between two settings is. */
export interface WayLength {
  readonly moves: number;
  /** Clock time from the first move to the last, in seconds; 0 where one time does for all, or nothing moves. */
  readonly seconds: number;
}

/** A way from one setting to another. */
export interface SettingWay extends WayLength {
  readonly steps: readonly WayStep[];
}

/**
 * The length of the shortest way, as `findShortestWay` proves it.
 *
 * @param footRestSeconds the least time between two moves of one foot
 */
export const measureWay = (from: Setting, to: Setting, footRestSeconds: number): WayLength => {
  const byFoot = SIDES.map((foot) => FEET[foot].filter((letter) => from[letter] !== to[letter]).length);
  return {
    moves: byFoot.reduce((sum, moves) => sum + moves, 0),
    seconds: Math.max(0, Math.max(...byFoot) - 1) * footRestSeconds,
  };
};

/**
 * The shortest way between two settings: no other has fewer moves, and none takes less time. Every pedal that stands
 * elsewhere needs a move of its own foot, and a foot's n moves take at least n − 1 rests between them; this way has one
 * move for each such pedal and takes as many rests as the busier foot must. Of the ways that are equally short, the one
 * with the fewest steps at which neighbouring strings are out of pitch order; then the pedals nearest to the player's
 * left first.
 *
 * @param footRestSeconds the least time between two moves of one foot
 */
export const findShortestWay = (from: Setting, to: Setting, footRestSeconds: number): SettingWay => {
  const orders = SIDES.map((foot) => permute(FEET[foot].filter((letter) => from[letter] !== to[letter])));
  const ways = orders[0]!.flatMap((left) =>
    orders[1]!.map((right) => takeSteps(from, to, [left, right], footRestSeconds)),
  );
  const crossings = (steps: readonly WayStep[]): number =>
    steps.filter(({ setting }) => isCrossed(setting)).length;
  const steps = ways.reduce((best, way) => (crossings(way) < crossings(best) ? way : best));
  return { steps, ...measureWay(from, to, footRestSeconds) };
};

/** Every order of a few, those that begin with the first of them first. */
const permute = <T>(items: readonly T[]): readonly (readonly T[])[] =>
  items.length === 0
    ? [[]]
    : items.flatMap((item, i) => permute(items.toSpliced(i, 1)).map((rest) => [item, ...rest]));

const takeSteps = (
  from: Setting,
  to: Setting,
  byFoot: readonly (readonly Letter[])[],
  footRestSeconds: number,
): readonly WayStep[] => {
  const count = Math.max(...byFoot.map((letters) => letters.length));
  let setting = from;
  return Array.from({ length: count }, (_, step) => {
    const moves = byFoot.flatMap((letters, side) => {
      const letter = letters[step];
      return letter === undefined ? [] : [{ letter, foot: SIDES[side]!, from: from[letter], to: to[letter] }];
    });
    setting = { ...setting, ...Object.fromEntries(moves.map((move) => [move.letter, move.to])) };
    return { seconds: step * footRestSeconds, moves, setting };
  });
};
