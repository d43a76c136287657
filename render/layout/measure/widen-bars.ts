import { group } from 'd3-array';
import {
  type Note,
  type Rational,
  type Rest,
  rationalKey,
  type Score,
  subtract,
  toNumber,
} from '../../../engine/index.ts';
import { levelOf, type ReservedSpace } from '../spaces/reserve-spaces.ts';
import type { NaturalBar, NaturalLine } from './measure-bars.ts';

/** Half of a notehead: drawings are hung on the middles of notes, whose left edges are known. */
const HALF_NOTEHEAD = 1.2;

/** Between two drawings of one level, in vu: a little more than they must be apart, less what of their boxes is blank. */
const BETWEEN = 2;

/** How much of a drawing stands before its moment. */
const SHARE_BEFORE = { before: 1, from: 0, over: 0.5 } as const;

/** Says how much wider bars become because drawings of one level stand side by side: those that would touch are parted. */
export type WidenBars = (line: NaturalLine) => ReadonlyMap<string, number>;

/**
 * @param rooms in the size in which they are laid out, in their order
 * @returns a function of the unbroken line that gives what is added, in vu, by the ids of bars
 */
export const barWidener = (score: Score, rooms: readonly ReservedSpace[]): WidenBars => {
  const events = group([...score.notes, ...score.rests] as (Note | Rest)[], (event) => event.bar);
  const roomsOf = group(rooms, ({ bar }) => bar);
  const indexOf = new Map(score.bars.map(({ id, index }) => [id, index]));
  return ({ bars, edges }) => {
    const widened = new Map<string, number>();
    const ends = new Map<string, number>();
    const shifts = new Map<string, number>();
    bars.forEach((place, i) => {
      const index = indexOf.get(place.id);
      const own = index === undefined ? [] : (roomsOf.get(index) ?? []);
      const xAt = own.length === 0 ? new Map<string, number>() : eventEdges(events.get(index!) ?? [], edges);
      const before = bars[i - 1]?.id;
      const begun = new Set<string>();
      for (const room of own) {
        const level = levelOf(room);
        const shift = shifts.get(level) ?? 0;
        const moment = edges[room.graceNote ?? ''] ?? xAt.get(rationalKey(room.at));
        const x = moment === undefined ? momentOf(score, room, place) : moment + HALF_NOTEHEAD;
        const widthVu = ownWidth(room);
        const left = x + shift - SHARE_BEFORE[room.stance] * widthVu;
        const over = Math.max(0, (ends.get(level) ?? Number.NEGATIVE_INFINITY) + BETWEEN - left);
        // What reaches over from an earlier bar widens the bar between.
        const bar = begun.has(level) ? place.id : (before ?? place.id);
        if (over > 0) widened.set(bar, (widened.get(bar) ?? 0) + over);
        shifts.set(level, shift + over);
        ends.set(level, left + over + widthVu);
        begun.add(level);
      }
    });
    return widened;
  };
};

/**
 * How much must stand beside others: the whole of a drawing, or its letter where words stand under it. For want of room these
 * go under one another, since bars as wide as their words would have holes in the music.
 */
const ownWidth = ({ box, startVu = 0, endVu }: ReservedSpace): number =>
  endVu === undefined ? box.widthVu : endVu - startVu;

const eventEdges = (
  events: readonly (Note | Rest)[],
  edges: NaturalLine['edges'],
): ReadonlyMap<string, number> => {
  const found = new Map<string, number>();
  for (const { id, onset } of events) {
    const edge = edges[id];
    if (edge !== undefined)
      found.set(rationalKey(onset), Math.min(edge, found.get(rationalKey(onset)) ?? edge));
  }
  return found;
};

/** About where a moment lies at which nothing begins. */
const momentOf = (
  score: Score,
  { at, bar }: { readonly at: Rational; readonly bar: number },
  place: NaturalBar,
): number => {
  const { duration, onset } = score.bars[bar]!;
  return place.x + (place.width * toNumber(subtract(at, onset))) / toNumber(duration);
};
