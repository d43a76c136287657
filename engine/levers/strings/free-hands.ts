import type { Side } from '../../harp/side.ts';
import { spanOf } from '../../sounding/need-span.ts';
import type { Moments } from '../../time/moments.ts';
import type { PlayEdge, PlayGraph } from '../../time/play-graph.ts';
import { hasRested } from '../../time/rested.ts';
import type { PitchNeed } from './asked.ts';

/** When the hands play, on every pass: where passes differ, the busiest counts. */
export interface FreeHands {
  readonly left: HandTimes;
  readonly right: HandTimes;
  /** By moment: seconds from the last string plucked to the next, whichever hand plucks them; 0 where one is plucked. */
  readonly quietSeconds: Float64Array;
}

/** What one hand does around each moment. */
export interface HandTimes {
  /** 1 where the hand can be away for a change: it plays nothing shortly before and after. */
  readonly isFree: Uint8Array;
  /** Seconds to the nearest note that it plays, before or after; 0 where it plays. */
  readonly toNoteSeconds: Float64Array;
}

/**
 * When each hand can leave the strings for a lever.
 *
 * @param halfSeconds how long before and after the moment the hand must be away
 */
export const findFreeHands = (
  asked: readonly PitchNeed[],
  moments: Moments,
  graph: PlayGraph,
  halfSeconds: number,
): FreeHands => {
  const playsAt = (isPlayed: (need: PitchNeed) => boolean): Uint8Array => {
    const plays = new Uint8Array(graph.moments);
    for (const each of asked) {
      if (each.kind === 'slid' || !isPlayed(each)) continue;
      const { first, last } = spanOf(each, moments);
      plays.fill(1, first, last + 1);
    }
    return plays;
  };
  const after = (plays: Uint8Array) =>
    secondsToNearest(plays, graph.moments, (at) => graph.outOf[at]!.map(forwards));
  const before = (plays: Uint8Array) =>
    secondsToNearest(plays, graph.moments, (at) => graph.into[at]!.map(backwards));
  const timesOf = (hand: Side): HandTimes => {
    const plays = playsAt((each) => each.hand === hand);
    const [next, last] = [after(plays), before(plays)];
    const toNoteSeconds = next.map((seconds, at) => Math.min(seconds, last[at]!));
    const isFree = plays.map((playing, at) =>
      Number(playing === 0 && hasRested(toNoteSeconds[at]!, halfSeconds)),
    );
    return { isFree, toNoteSeconds };
  };
  const all = playsAt(() => true);
  const [next, last] = [after(all), before(all)];
  return {
    left: timesOf('left'),
    right: timesOf('right'),
    quietSeconds: next.map((seconds, at) => seconds + last[at]!),
  };
};

interface Step {
  readonly at: number;
  readonly seconds: number;
}

const forwards = ({ to, seconds }: PlayEdge): Step => ({ at: to, seconds });
const backwards = ({ from, seconds }: PlayEdge): Step => ({ at: from, seconds });

/** Seconds to the nearest marked moment along the steps; infinite where none can be reached. */
const secondsToNearest = (
  marked: Uint8Array,
  moments: number,
  stepsFrom: (at: number) => readonly Step[],
): Float64Array => {
  const nearest = Float64Array.from(marked, (mark) => (mark === 1 ? 0 : Number.POSITIVE_INFINITY));
  const steps = Array.from({ length: moments }, (_, at) => stepsFrom(at));
  const order = Array.from({ length: moments }, (_, i) => i);
  const leadsOn = steps.some((each, at) => each.some((step) => step.at > at));
  if (leadsOn) order.reverse();
  let changed = true;
  while (changed) {
    changed = false;
    for (const at of order) {
      for (const { at: next, seconds } of steps[at]!) {
        if (nearest[next]! + seconds >= nearest[at]! - 1e-9) continue;
        nearest[at] = nearest[next]! + seconds;
        changed = true;
      }
    }
  }
  return nearest;
};

/**
 * The moments that are played less than `restSeconds` after a moment, on some pass; not the moment itself.
 *
 * @returns a function that remembers what it has worked out
 */
export const findMomentsTooSoonAfter = (
  graph: PlayGraph,
  restSeconds: number,
): ((moment: number) => ReadonlyMap<number, ReachedBy>) => {
  const known = new Map<number, ReadonlyMap<number, ReachedBy>>();
  return (moment) => {
    const found = known.get(moment) ?? followFrom(graph, moment, restSeconds);
    known.set(moment, found);
    return found;
  };
};

/** Whether some way from one moment to the other holds a jump, or only steps to the neighbour in print. */
export type ReachedBy = 'by-steps' | 'by-jump';

/** The same in both directions, with the moment itself. */
export const findMomentsTooCloseTo = (
  graph: PlayGraph,
  restSeconds: number,
): ((moment: number) => ReadonlySet<number>) => {
  const turned: Pick<PlayGraph, 'outOf'> = {
    outOf: graph.into.map((edges) => edges.map(({ from, to, seconds }) => ({ from: to, to: from, seconds }))),
  };
  const known = new Map<number, ReadonlySet<number>>();
  return (moment) => {
    const found =
      known.get(moment) ??
      new Set([
        moment,
        ...followFrom(graph, moment, restSeconds).keys(),
        ...followFrom(turned, moment, restSeconds).keys(),
      ]);
    known.set(moment, found);
    return found;
  };
};

const followFrom = (
  graph: Pick<PlayGraph, 'outOf'>,
  start: number,
  restSeconds: number,
): Map<number, ReachedBy> => {
  const near = new Map<number, ReachedBy>();
  const soonest = new Map<number, number>();
  const follow = (from: number, seconds: number, jumped: boolean): void => {
    for (const edge of graph.outOf[from]!) {
      const total = seconds + edge.seconds;
      const by = jumped || edge.to !== from + 1;
      const key = 2 * edge.to + Number(by);
      if (hasRested(total, restSeconds) || (soonest.get(key) ?? Number.POSITIVE_INFINITY) <= total) continue;
      soonest.set(key, total);
      if (edge.to !== start) near.set(edge.to, by ? 'by-jump' : (near.get(edge.to) ?? 'by-steps'));
      follow(edge.to, total, by);
    }
  };
  follow(start, 0, false);
  return near;
};
