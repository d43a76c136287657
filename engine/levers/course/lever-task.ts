import type { OneTime } from '../../score/bars/one-time.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import { findMomentsTooCloseTo, findMomentsTooSoonAfter, type ReachedBy } from '../strings/free-hands.ts';
import { inSameHand, momentOfSlot, type Slot } from './slots.ts';
import type { SlottedChange } from './subproblems.ts';

/** What all jobs share. */
export interface LeverTask {
  /** The hands that may move the lever of a string at a moment: one at least, the left hand before the right. */
  readonly slotsAt: (string: number, moment: number) => readonly Slot[];
  /** Price of moving the lever of a string there, at one time of playing or each (null). */
  readonly priceAt: (string: number, slot: Slot, time: OneTime | null) => number;
  /** The same with the hand for which it is cheapest. */
  readonly leastPriceAt: (string: number, moment: number, time: OneTime | null) => number;
  /** What each change of a lever costs more where its changes are not alike at all times of playing. */
  readonly byTime: number;
  /** Where the same hand has no time yet for another change. */
  readonly tooSoonAfter: (slot: Slot) => ReadonlyMap<Slot, ReachedBy>;
  /** The same backwards too, and the slot itself. */
  readonly tooCloseTo: (slot: Slot) => ReadonlySet<Slot>;
  /** Price of a change that follows another of its hand too soon. */
  readonly noTime: number;
  /** Seconds by moment from the first one along the print; far more where the print is not played on. */
  readonly printedSeconds: Float64Array;
  readonly leverSeconds: number;
}

/** Each hand needs a rest between two changes; the other hand's changes are nothing to it. */
export const restsOfHands = (
  graph: PlayGraph,
  restSeconds: number,
): Pick<LeverTask, 'tooSoonAfter' | 'tooCloseTo'> => {
  const after = findMomentsTooSoonAfter(graph, restSeconds);
  const around = findMomentsTooCloseTo(graph, restSeconds);
  const knownAfter = new Map<Slot, ReadonlyMap<Slot, ReachedBy>>();
  const knownAround = new Map<Slot, ReadonlySet<Slot>>();
  return {
    tooSoonAfter: (slot) => {
      const found =
        knownAfter.get(slot) ??
        new Map([...after(momentOfSlot(slot))].map(([moment, by]) => [inSameHand(slot, moment), by]));
      knownAfter.set(slot, found);
      return found;
    },
    tooCloseTo: (slot) => {
      const found =
        knownAround.get(slot) ??
        new Set([...around(momentOfSlot(slot))].map((moment) => inSameHand(slot, moment)));
      knownAround.set(slot, found);
      return found;
    },
  };
};

export interface ScheduledLeverChange extends SlottedChange {
  readonly string: number;
  /** It follows another change of its hand too soon on some pass. */
  readonly tooSoon: boolean;
}

export type PlacedChange = Omit<ScheduledLeverChange, 'tooSoon'>;

/**
 * A change is too soon if on some pass its hand made another less than the rest before it; of changes of one hand at
 * one moment, all but that of the lowest string are.
 */
export const findTooSoon = (moves: readonly PlacedChange[], near: LeverTask['tooSoonAfter']): boolean[] =>
  moves.map((move) => moves.some((other) => other !== move && makesTooSoon(other, move, near)));

/** Whether after one change its hand has no time yet for another. */
export const makesTooSoon = (
  { slot, string, byTime }: PlacedChange,
  other: PlacedChange,
  near: LeverTask['tooSoonAfter'],
): boolean => {
  if (slot !== other.slot) return near(slot).has(other.slot);
  const [time, otherTime] = [byTime?.time ?? null, other.byTime?.time ?? null];
  const areApart = time !== null && otherTime !== null && time !== otherTime;
  return !areApart && string < other.string;
};

export interface GroupSearch {
  /** The best course that is cheaper than the bound; null where there is none. */
  readonly moves: readonly PlacedChange[] | null;
  readonly complete: boolean;
}

/** The price of a change without what the hands' time adds. */
export const priceOfChange = ({ string, slot, byTime }: PlacedChange, task: LeverTask): number =>
  task.priceAt(string, slot, byTime?.time ?? null) + (byTime === null ? 0 : task.byTime);
