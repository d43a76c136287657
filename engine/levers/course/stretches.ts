import { numberPasses, type PlayedOnce } from '../../score/bars/one-time.ts';
import type { PlayGraph } from '../../time/play-graph.ts';

/** Whether a stretch is played the first time that its moment comes, or later; both where it is played so often. */
export interface PlayedTimes {
  readonly first: boolean;
  readonly later: boolean;
}

/**
 * What is played between two moments that decide how a lever stands, with none of them between: on the way the lever has
 * to be moved once, or not at all.
 */
export interface Stretch {
  /** The moment it comes from; null at the start, where the lever is set beforehand. */
  readonly from: number | null;
  /** How the lever stands there, and at the end; null where the piece begins or ends without being asked. */
  readonly begins: number | null;
  readonly ends: number | null;
  /** After `from`, up to and with the moment that ends it, each with the times of playing at which it belongs to it. */
  readonly times: ReadonlyMap<number, PlayedTimes>;
}

/** Whether the lever has to be moved on the way. */
export const isTurn = ({ begins, ends }: Stretch): boolean =>
  begins !== null && ends !== null && begins !== ends;

/**
 * The stretches of one lever in the order in which they are first played. Those that hold the same moments are one.
 *
 * @param positionAt how the lever has to stand at a moment; null where that is open
 */
export const listStretches = (
  { played }: Pick<PlayGraph, 'played'>,
  positionAt: (moment: number) => number | null,
): readonly Stretch[] => {
  const known = new Map<string, { readonly stretch: Stretch; readonly times: Map<number, PlayedTimes> }>();
  let from: number | null = null;
  let way: PlayedOnce<number>[] = [];
  const close = (ends: number | null): void => {
    const key = `${from}:${way.map(({ item }) => item).join()}`;
    const found = known.get(key) ?? open(from, ends);
    known.set(key, found);
    for (const { item: moment, pass } of way) {
      const before = found.times.get(moment);
      found.times.set(moment, {
        first: (before?.first ?? false) || pass === 1,
        later: (before?.later ?? false) || pass > 1,
      });
    }
  };
  const open = (start: number | null, ends: number | null) => {
    const times = new Map<number, PlayedTimes>();
    const begins = start === null ? null : positionAt(start);
    return { stretch: { from: start, begins, ends, times }, times };
  };
  for (const once of numberPasses(played)) {
    way.push(once);
    const moment = once.item;
    const position = positionAt(moment);
    if (position === null) continue;
    close(position);
    [from, way] = [moment, []];
  }
  if (way.length > 0) close(null);
  return [...known.values()].map(({ stretch }) => stretch);
};
