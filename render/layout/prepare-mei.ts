import { multiply, rational, rationalKey, subtract, toNumber } from '../../engine/music/rational.ts';
import type { Bar, Score } from '../../engine/score/model.ts';
import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import { type Edit, escapeText, insertAt } from '../edit.ts';
import type { Marking } from '../markings.ts';
import { type BoxSize, type PlaceholderAnchor, placeholderElement } from './placeholder.ts';

/** The MEI that is laid out, and how the score's things are found in it. */
export interface LayoutMei {
  readonly text: string;
  readonly root: XmlElement;
  /** `n` of the harp's staves from the top. */
  readonly staves: readonly string[];
  readonly measureOf: (bar: Bar) => XmlElement | undefined;
  /** Whether an event (note, rest or chord) of this id stands in the document. */
  readonly hasEvent: (id: string) => boolean;
}

/** A marking and the room that its drawing takes. */
export interface MarkingRoom {
  readonly marking: Marking;
  readonly box: BoxSize;
}

/** Insertions that make the layout keep room for every marking, below the harp's lowest staff. */
export const placeholderEdits = (score: Score, mei: LayoutMei, rooms: readonly MarkingRoom[]): Edit[] => {
  const anchors = eventsByOnset(score, mei);
  const lowest = mei.staves.at(-1)!;
  return rooms.flatMap(({ marking, box }) => {
    const bar = score.bars[marking.bar]!;
    const measure = mei.measureOf(bar);
    if (measure === undefined) return [];
    const event = marking.graceNote ?? anchors.get(rationalKey(marking.at));
    const moment: PlaceholderAnchor['moment'] =
      event === undefined
        ? { name: 'tstamp', value: `${tstampOf(bar, marking)}` }
        : { name: 'startid', value: `#${event}` };
    return [
      insertAt(
        measure.inner.end,
        placeholderElement(marking.id, { staff: lowest, place: 'below', moment }, box),
      ),
    ];
  });
};

/** MEI counts beats of the meter's unit from 1 at the bar's start. */
const tstampOf = (bar: Bar, marking: Marking): number =>
  1 + toNumber(multiply(subtract(marking.at, bar.onset), rational(bar.meter.beatUnit, 4)));

/** For each onset an event to hang a marking on: one of the lowest staff if there is one, never a grace note. */
const eventsByOnset = (score: Score, mei: LayoutMei): Map<string, string> => {
  const found = new Map<string, { id: string; staff: number }>();
  const offer = (event: { id: string; staff: number; onset: Parameters<typeof rationalKey>[0] }): void => {
    const key = rationalKey(event.onset);
    const known = found.get(key);
    if (mei.hasEvent(event.id) && (known === undefined || event.staff > known.staff)) {
      found.set(key, { id: event.id, staff: event.staff });
    }
  };
  for (const note of score.notes) if (note.grace === null) offer(note);
  for (const rest of score.rests) offer(rest);
  return new Map([...found].map(([key, { id }]) => [key, id]));
};

/** The page's own heading in place of any that the source encodes: title, composer and part; later pages a number. */
export const headingEdit = (score: Score, mei: LayoutMei): Edit[] => {
  const scoreDef = descendantsNamed(mei.root, 'scoreDef')[0];
  if (scoreDef === undefined) return [];
  const { title, subtitle, composer } = score.titles;
  const lines = [
    `<rend fontsize="x-large">${escapeText(title)}</rend>`,
    ...(subtitle === '' ? [] : [`<lb/><rend fontsize="normal">${escapeText(subtitle)}</rend>`]),
  ];
  const first =
    '<pgHead func="first">' +
    `<rend halign="center" valign="top">${lines.join('')}</rend>` +
    `<rend halign="left" valign="bottom">${escapeText(score.harp.name)}</rend>` +
    `<rend halign="right" valign="bottom">${escapeText(composer)}</rend>` +
    '</pgHead>';
  const others =
    '<pgHead func="all">' +
    `<rend halign="left" fontsize="small">${escapeText(title)}</rend>` +
    '<rend halign="right" fontsize="small"><num label="page">#</num></rend>' +
    '</pgHead>';
  return [insertAt(scoreDef.inner.start, first + others)];
};
