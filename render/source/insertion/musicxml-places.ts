import {
  childText,
  compare,
  equals,
  firstChild,
  listParts,
  multiply,
  type Part,
  type Rational,
  rational,
  type Score,
  subtract,
  toNumber,
  walkBar,
  type XmlElement,
} from '../../../engine/index.ts';
import type { MarkingPlace } from '../../markings/markings.ts';
import { isSelfClosing } from './insertion.ts';

/** Where a direction goes into the text, and what it says of its moment and staff. */
export interface DirectionPlace {
  /** Index of the text before which it is inserted. */
  readonly before: number;
  /** Divisions from that place to the moment; 0 where it is the moment. */
  readonly offset: number;
  /** Staff within the part; null where the part has one staff only. */
  readonly staff: number | null;
}

/** A note or rest of the part before which a direction can stand. */
interface Stop {
  readonly start: number;
  readonly at: Rational;
  readonly divisions: Rational;
  readonly staff: number;
  readonly grace: boolean;
}

/** One bar of a part: its notes and rests in the order of the file, chords as one. */
interface Lane {
  readonly stops: readonly Stop[];
  /** Behind the attributes with which a bar begins: a place at the bar's start. */
  readonly head: Stop;
}

/**
 * Finds places for directions in the harp's lower part (its only one as a rule), under its lowest staff.
 *
 * A direction goes before the note or rest of its staff that begins at its moment, else before one of another staff,
 * else before the last one that began earlier, with an offset. One that belongs before a grace note goes there, be it
 * in the upper part. Of markings at one moment the later never comes first.
 */
export const findDirectionPlaces = <Placed extends MarkingPlace>(
  score: Score,
  markings: readonly Placed[],
): ReadonlyMap<Placed, DirectionPlace> => {
  const parts = listParts(score.source.root, score.source.format);
  const lanes = score.harp.partIds.map((id) =>
    readLanes(
      score,
      parts.find((part) => part.id === id),
    ),
  );
  const lower = lanes.at(-1)!;
  const staff = lanes.length > 1 ? 1 : score.harp.staves;
  const graceStarts = new Map(score.notes.map((note) => [note.id, note.span.start]));
  const places = new Map<Placed, DirectionPlace>();
  let last: { readonly at: Rational; readonly before: number } | null = null;
  for (const marking of markings) {
    const grace = marking.graceNote === null ? undefined : graceStarts.get(marking.graceNote);
    const earliest: number = last !== null && equals(last.at, marking.at) ? last.before : 0;
    const found = stopAt(lanes, marking.bar, grace) ?? placeInLane(lower, score, marking, staff, earliest);
    places.set(marking, { ...found, staff: staff > 1 ? staff : null });
    last = { at: marking.at, before: found.before };
  }
  return places;
};

type Found = Pick<DirectionPlace, 'before' | 'offset'>;

const stopAt = (
  lanes: readonly (readonly (Lane | null)[])[],
  bar: number,
  start: number | undefined,
): Found | undefined =>
  lanes
    .flatMap((lane) => lane[bar]?.stops ?? [])
    .filter((stop) => stop.start === start)
    .map((stop) => ({ before: stop.start, offset: 0 }))[0];

/** @param earliest index of the text before which the direction must not stand */
const placeInLane = (
  lanes: readonly (Lane | null)[],
  score: Score,
  marking: MarkingPlace,
  staff: number,
  earliest: number,
): Found => {
  const host = hostOf(lanes, marking.bar);
  const lane = lanes[host]!;
  const moment = subtract(marking.at, score.bars[host]!.onset);
  const stops = lane.stops.filter((stop) => stop.start >= earliest);
  const here = stops.filter((stop) => !stop.grace && equals(stop.at, moment));
  const exact = here.find((stop) => stop.staff === staff) ?? here[0];
  if (exact !== undefined) return { before: exact.start, offset: 0 };
  const earlier = stops.filter((stop) => compare(stop.at, moment) < 0);
  const near = earlier.findLast((stop) => stop.staff === staff) ?? earlier.at(-1) ?? lane.head;
  const distance = multiply(subtract(moment, near.at), near.divisions);
  // Rounded towards the bar's start: a change must not come after the note that needs it.
  return { before: Math.max(near.start, earliest), offset: Math.floor(toNumber(distance) * 1000) / 1000 };
};

/** The bar itself, else the last before it that can hold a direction, else the first after it. */
const hostOf = (lanes: readonly (Lane | null)[], bar: number): number => {
  const before = lanes.findLastIndex((lane, index) => lane !== null && index <= bar);
  return before >= 0 ? before : lanes.findIndex((lane) => lane !== null);
};

/** The bars of a part; null for one that the part lacks or that has no inside. */
const readLanes = (score: Score, part: Part | undefined): readonly (Lane | null)[] => {
  let divisions = rational(1);
  return score.bars.map((_, index) => {
    const content = part?.bars[index]?.content ?? null;
    if (content === null) return null;
    const { lane, following } = readLane(content, divisions);
    divisions = following;
    return isSelfClosing(score.source.text, content) ? null : lane;
  });
};

/** What stands at the head of a bar, before the music begins. */
const HEADING: ReadonlySet<string> = new Set([
  'print',
  'attributes',
  'barline',
  'bookmark',
  'link',
  'listening',
]);

const readLane = (
  content: XmlElement,
  divisions: Rational,
): { readonly lane: Lane; readonly following: Rational } => {
  const first = content.children.find((each) => !HEADING.has(each.name));
  const start = first?.span.start ?? content.inner.end;
  const stops: Stop[] = [];
  let head: Stop = { start, at: rational(0), divisions, staff: 0, grace: false };
  const walked = walkBar(content, divisions, (item) => {
    const { element, at } = item;
    if (element.span.start < start) head = { ...head, divisions: item.divisions };
    if (element.name !== 'note' || item.chord) return;
    stops.push({
      start: element.span.start,
      at,
      divisions: item.divisions,
      staff: Number(childText(element, 'staff') ?? 1),
      grace: firstChild(element, 'grace') !== undefined,
    });
  });
  return { lane: { stops, head }, following: walked.divisions };
};
