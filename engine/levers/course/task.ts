import type { Nearness } from '../strings/hands.ts';

/** What all jobs share. */
export interface LeverTask {
  /** Price of moving the lever of a string at a moment. */
  readonly priceAt: (string: number, moment: number) => number;
  /** The moments that are played too soon after a moment for another change. */
  readonly near: (moment: number) => ReadonlyMap<number, Nearness>;
  /** The same backwards too, and the moment itself. */
  readonly close: (moment: number) => ReadonlySet<number>;
  /** Price of a change that follows another too soon. */
  readonly noTime: number;
  /** Seconds from the first moment along the print; far more where the print is not played on. */
  readonly lineSeconds: Float64Array;
  readonly restSeconds: number;
}

export interface CourseMove {
  readonly string: number;
  readonly moment: number;
  /** It follows another change too soon on some pass. */
  readonly hurried: boolean;
}

export type PlacedChange = Omit<CourseMove, 'hurried'>;

/**
 * A change is too soon if on some pass another was made less than the rest before it; of changes at one moment, all
 * but that of the lowest string are.
 */
export const findHurried = (moves: readonly PlacedChange[], near: LeverTask['near']): boolean[] =>
  moves.map((move) =>
    moves.some(
      (other) =>
        other !== move &&
        (other.moment === move.moment ? other.string < move.string : near(other.moment).has(move.moment)),
    ),
  );

export interface GroupSearch {
  /** The best course that is cheaper than the bound; null where there is none. */
  readonly moves: readonly PlacedChange[] | null;
  readonly complete: boolean;
}
