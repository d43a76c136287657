import { perObject } from '../../memoize.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import { hasRested } from '../../time/rested.ts';

/**
 * What a foot's moves cost for following each other closely, though there is time for both.
 *
 * Judged as the player reads on: along the steps from each moment to the one printed after it. Where none leads on, as
 * into a second ending, the foot counts as rested, and a move that only a jump makes necessary is not counted.
 */
export interface Spacing {
  /**
   * Price of a move as soon after the one before as the rest allows, or sooner; fades until `comfortableSeconds`, fast
   * at first: the last of that time hardly matters to a foot.
   */
  readonly price: number;
  readonly comfortableSeconds: number;
}

/** Prices are whole 1024ths, so that their sums are exact in any order, up to some 8,000,000,000,000. */
export const exactPrice = (price: number): number => Math.round(price * 1024) / 1024;

/** @param sinceSeconds since the foot's move before; never dearer the longer it is */
export const priceOfSpacing = (
  { price, comfortableSeconds }: Spacing,
  restSeconds: number,
  sinceSeconds: number,
): number => {
  if (price === 0 || hasRested(sinceSeconds, comfortableSeconds)) return 0;
  if (sinceSeconds <= restSeconds) return price;
  const left = (comfortableSeconds - sinceSeconds) / (comfortableSeconds - restSeconds);
  return exactPrice(price * left * left);
};

/**
 * The most that a foot which moved longer ago can save by that on its next move, whenever it makes it. Since the price
 * falls ever more slowly, the difference is greatest as soon as the foot that moved later has rested.
 */
export const mostSavedBySpacing = (
  spacing: Spacing,
  restSeconds: number,
  sinceSeconds: number,
  longerSeconds: number,
): number => {
  const { price, comfortableSeconds } = spacing;
  const longer = longerSeconds - sinceSeconds;
  if (longer <= 0 || price === 0 || hasRested(sinceSeconds, comfortableSeconds)) return 0;
  if (comfortableSeconds <= restSeconds) return price;
  const since = Math.max(sinceSeconds, restSeconds);
  const saved =
    priceOfSpacing(spacing, restSeconds, since) - priceOfSpacing(spacing, restSeconds, since + longer);
  // Each price is rounded by itself.
  return Math.min(price, saved + 1 / 1024);
};

/** The seconds since the foot's move before, by moment, wherever it moves as the player reads on. */
export const spacingsOf = (
  graph: PlayGraph,
  movesBetween: (from: number, to: number) => boolean,
): ReadonlyMap<number, number> => {
  const spacings = new Map<number, number>();
  const steps = stepsReadOn(graph);
  let since = Number.POSITIVE_INFINITY;
  for (let moment = 1; moment < graph.moments; moment += 1) {
    const step = steps[moment]!;
    since += step;
    if (step === Number.POSITIVE_INFINITY || !movesBetween(moment - 1, moment)) continue;
    spacings.set(moment, since);
    since = 0;
  }
  return spacings;
};

/** Seconds from the moment printed before each to it; infinite where the player does not read on from there. */
const stepsReadOn = perObject(
  (graph: PlayGraph): Float64Array =>
    Float64Array.from(
      graph.into,
      (edges, moment) => edges.find(({ from }) => from === moment - 1)?.seconds ?? Number.POSITIVE_INFINITY,
    ),
);
