import {
  add,
  type Bar,
  beatAt,
  compare,
  type Foot,
  type Rational,
  rationalKey,
  type Score,
  toNumber,
} from '../../../engine/index.ts';
import type { Drawing } from '../../draw/drawing.ts';
import { type Edit, insertAt } from '../../edit.ts';
import type { MarkingPlacement } from '../../engraving-options.ts';
import type { LayoutMei } from '../document/layout-mei.ts';
import { type BoxSize, type PlaceholderAnchor, placeholderElement } from './placeholder.ts';
import { clearOfNote, EDGE_AT_MOMENT, type Standing } from './stance.ts';

/**
 * What stands on one level: the markings, the numbers of impossible places, what is told before the first note, and the
 * counts.
 */
export type SpaceRow = 'markings' | 'flags' | 'start' | 'counts';

/** Some of the staves of a system, by the places of the highest and the lowest as `Array.at` counts them. */
export interface StaffRange {
  readonly top: number;
  readonly bottom: number;
}

/** @param staves from the top */
export const stavesIn = (staves: readonly string[], { top, bottom }: StaffRange): readonly string[] =>
  staves.slice(top, bottom === -1 ? undefined : bottom + 1);

/** All staves of a part for one harp. */
export const ALL_STAVES: StaffRange = { top: 0, bottom: -1 };

/** Something of ours that the layout is to make room for. */
export interface ReservedSpace extends Standing, Pick<Drawing, 'startVu' | 'endVu' | 'tailVu' | 'headVu'> {
  /** Unique on the pages. */
  readonly id: string;
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly graceNote: string | null;
  /** All rooms of a line are set on one level in a system where room allows. */
  readonly line: SpaceRow;
  /** The staves of its harp. */
  readonly staves: StaffRange;
  readonly box: BoxSize;
  /**
   * How much of its width the music makes room for, where it is not all: what comes beside it then stands farther out, since
   * a run with a hole in it is read as slower than it is.
   */
  readonly keptVu?: number;
  /** Whose change of pedals it is, where it is nothing else: the feet have a row each. */
  readonly foot?: Foot | 'both';
  /** The note beside it, in its bar, under which it must not reach: the music is set so far apart. */
  readonly fence?: Fence;
}

/** A moment at which the room for something beside it ends. */
export interface Fence {
  readonly at: Rational;
  /** Whether it begins behind that note, or ends before it. */
  readonly side: 'behind' | 'before';
}

/** The id of the placeholder that stands at a fence, by that of its room. */
export const fenceIdOf = (id: string): string => `${id}-fence`;

const FENCE_VU = 0.4;

/** Rooms, and with them those that stand for their fences: next to nothing, but nothing is set over them. */
export const withFences = (rooms: readonly ReservedSpace[]): readonly ReservedSpace[] =>
  rooms.flatMap((room) => {
    if (room.fence === undefined) return [room];
    const { at, side } = room.fence;
    const stance = side === 'behind' ? 'over' : 'before';
    const box = { widthVu: FENCE_VU + clearOfNote(stance), heightVu: FENCE_VU };
    const { bar, line, staves } = room;
    const alone = { ...STANDS_ALONE, bar, line, staves, at, stance, box } as const;
    return [room, { ...alone, id: fenceIdOf(room.id) }];
  });

const STANDS_ALONE = {
  graceNote: null,
  begins: [],
  endsBefore: [],
  beginsInBar: false,
  endsInBar: false,
} as const;

/** Names the level that it is set on: that of its kind at its harp's staves. */
export const levelOf = ({ line, staves }: Pick<ReservedSpace, 'line' | 'staves'>): string =>
  `${line};${staves.top}`;

/** Insertions that make the layout keep every room free. */
export const placeholderEdits = (
  score: Score,
  mei: LayoutMei,
  rooms: readonly ReservedSpace[],
  placement: MarkingPlacement,
  homes: ReadonlyMap<number, number>,
): Edit[] => {
  const known = EVENTS.get(mei) ?? new Map<string, ReadonlyMap<string, string>>();
  EVENTS.set(mei, known);
  const eventAt = ({ line, staves, at }: ReservedSpace): string | undefined => {
    const isBelow = placement !== 'between' && sideOf(line, placement) === 'below';
    const wanted = isBelow ? 'lowest' : 'highest';
    const key = `${wanted};${staves.top};${staves.bottom}`;
    const events = known.get(key) ?? eventsByOnset(score, mei, staves, wanted);
    known.set(key, events);
    return events.get(rationalKey(at));
  };
  return rooms.flatMap((room) => {
    const home = homes.get(room.bar);
    const bar = score.bars[home ?? barOfRoom(score, room)]!;
    const measure = mei.measureOf(bar);
    if (measure === undefined) return [];
    const event = room.graceNote ?? eventAt(room);
    const moment: PlaceholderAnchor['moment'] =
      home !== undefined
        ? { name: 'tstamp', value: '1' }
        : event === undefined
          ? { name: 'tstamp', value: `${tstampOf(bar, room.at)}` }
          : { name: 'startid', value: `#${event}` };
    const anchor = { ...lineOf(room, placement, mei.staves), moment };
    return [insertAt(measure.inner.end, placeholderElement(room.id, anchor, room.box))];
  });
};

/** The events of a document, which is written several times, by which of them are wanted. */
const EVENTS = new WeakMap<LayoutMei, Map<string, ReadonlyMap<string, string>>>();

/** Grace notes at the end of a bar share their time with the next bar: what is hung on a note there belongs to that bar. */
const barOfRoom = ({ bars }: Score, { at, bar, graceNote }: ReservedSpace): number => {
  const { onset, duration } = bars[bar]!;
  const isPast = graceNote === null && compare(at, add(onset, duration)) >= 0;
  return isPast && bar + 1 < bars.length ? bar + 1 : bar;
};

/** Whether a line stands between staves, where it cannot give way as far as it likes. */
export const standsBetween = (
  { line, staves }: Pick<ReservedSpace, 'line' | 'staves'>,
  placement: MarkingPlacement,
): boolean => {
  if (line === 'markings' && placement === 'between') return true;
  return sideOf(line, placement) === 'above' ? staves.top !== 0 : staves.bottom !== -1;
};

/** On which side of its staff a line stands; what is told before the first note is too large for between the staves. */
export const sideOf = (line: SpaceRow, placement: MarkingPlacement): 'above' | 'below' => {
  switch (line) {
    case 'flags':
    case 'start':
      return 'above';
    // Where the markings do not stand.
    case 'counts':
      return placement === 'above' ? 'below' : 'above';
    case 'markings':
      return placement === 'above' ? 'above' : 'below';
  }
};

const lineOf = (
  { line, stance, staves: own }: ReservedSpace,
  placement: MarkingPlacement,
  staves: readonly string[],
): Omit<PlaceholderAnchor, 'moment'> => {
  const [top, bottom] = [staves.at(own.top)!, staves.at(own.bottom)!];
  const align = EDGE_AT_MOMENT[stance];
  if (line === 'flags') return { staff: top, place: 'above', row: 4, align };
  if (line === 'start') return { staff: top, place: 'above', row: 2, align };
  if (line === 'counts') {
    const side = sideOf(line, placement);
    return { staff: side === 'below' ? bottom : top, place: side, row: 1, align };
  }
  switch (placement) {
    case 'below':
      return { staff: bottom, place: 'below', row: 3, align };
    case 'above':
      return { staff: top, place: 'above', row: 3, align };
    case 'between':
      // Verovio sets texts that ask to stand between the staves over one another.
      return { staff: top, place: 'below', row: 3, align };
  }
};

/** MEI counts beats of the meter's unit from 1 at the bar's start. */
const tstampOf = (bar: Bar, at: Rational): number => toNumber(beatAt(bar, at));

/**
 * For each onset an event to hang something on: of the wanted staff if there is one, never a grace note, and never a
 * rest of a whole bar, which stands in the bar's middle.
 */
const eventsByOnset = (
  score: Score,
  mei: LayoutMei,
  { top, bottom }: StaffRange,
  wanted: 'highest' | 'lowest',
): Map<string, string> => {
  const isOwn = ({ staff }: { readonly staff: number }): boolean =>
    staff > top && (bottom === -1 || staff <= bottom + 1);
  const found = new Map<string, { id: string; staff: number }>();
  const events = [
    ...score.notes.filter((note) => note.grace === null && note.role === 'played'),
    ...score.rests.filter((rest) => compare(rest.duration, score.bars[rest.bar]!.duration) < 0),
  ];
  for (const event of events.filter(isOwn)) {
    const key = rationalKey(event.onset);
    const known = found.get(key);
    const isBetter =
      known === undefined || (wanted === 'lowest' ? event.staff > known.staff : event.staff < known.staff);
    if (isBetter && mei.tagOf(event) !== undefined) found.set(key, { id: event.id, staff: event.staff });
  }
  return new Map([...found].map(([key, { id }]) => [key, id]));
};
