import type { Score, XmlElement } from '../../../engine/index.ts';
import { readPoints } from '../../geometry/outline-boxes.ts';

/** A bar as it is by nature; a joined rest is one. Lengths in vu (half staff spaces). */
export interface MeasuredBar {
  /** Index into the score's bars. */
  readonly bar: number;
  readonly width: number;
  /** How far its ink reaches above the highest staff, and below the lowest. */
  readonly above: number;
  readonly below: number;
  /** From the top line of the highest staff to the bottom line of the lowest, as its own ink needs it. */
  readonly staves: number;
}

/** What the unbroken line tells. */
export interface MeasuredPart {
  readonly bars: readonly MeasuredBar[];
  /** Height of the heading over the first system. */
  readonly heading: number;
}

/** Height of a staff, and the least distance of two of a system. */
const STAFF_VU = 8;
const BETWEEN_STAVES_VU = 11;

/**
 * Reads the natural width of each bar, and roughly how high it is, from a part laid out as one line. Heights are
 * those of the glyphs' origins: enough to say how many systems a page will hold; the systems themselves tell it exactly.
 *
 * @param skipped ids of groups that are passed over: our placeholders, which stand on one level all along the line
 */
export const measureBars = (
  root: XmlElement,
  score: Score,
  skipped: ReadonlySet<string>,
  unitsPerVu: number,
): MeasuredPart => {
  const indexOf = new Map(score.bars.map(({ id, index }) => [id, index]));
  const bars: MeasuredBar[] = [];
  let heading = 0;
  const visit = (element: XmlElement): void => {
    const { id, class: name } = element.attributes;
    if (name === 'pgHead') heading = Math.max(heading, lowestOf(element, skipped) / unitsPerVu);
    else if (name === 'measure') {
      const bar = indexOf.get(id ?? '');
      if (bar !== undefined) bars.push(...measureBar(element, bar, skipped, unitsPerVu));
    } else for (const each of element.children) visit(each);
  };
  visit(root);
  return { bars, heading };
};

interface StaffLines {
  readonly element: XmlElement;
  readonly x0: number;
  readonly x1: number;
  readonly top: number;
  readonly bottom: number;
}

const measureBar = (
  measure: XmlElement,
  bar: number,
  skipped: ReadonlySet<string>,
  unitsPerVu: number,
): MeasuredBar[] => {
  const staves = measure.children.flatMap(readStaff);
  const [highest, lowest] = [staves[0], staves.at(-1)];
  if (highest === undefined || lowest === undefined) return [];
  const reaches = staves.map(({ top, bottom }) => ({ top, bottom }));
  const claim = (element: XmlElement, owner: number | null): void => {
    heightsOf(element, skipped, (y) => {
      const reach = reaches[owner ?? nearest(staves, y)]!;
      reach.top = Math.min(reach.top, y);
      reach.bottom = Math.max(reach.bottom, y);
    });
  };
  for (const child of measure.children) {
    const owner = staves.findIndex(({ element }) => element === child);
    claim(child, owner < 0 ? null : owner);
  }
  const inner = staves.slice(1).map((staff, i) => {
    const hanging = reaches[i]!.bottom - staves[i]!.bottom;
    return Math.max(BETWEEN_STAVES_VU, (hanging + staff.top - reaches[i + 1]!.top) / unitsPerVu);
  });
  return [
    {
      bar,
      width: (highest.x1 - highest.x0) / unitsPerVu,
      above: (highest.top - reaches[0]!.top) / unitsPerVu,
      below: (reaches.at(-1)!.bottom - lowest.bottom) / unitsPerVu,
      staves: STAFF_VU * staves.length + inner.reduce((sum, gap) => sum + gap, 0),
    },
  ];
};

const readStaff = (element: XmlElement): StaffLines[] => {
  if (element.attributes.class !== 'staff') return [];
  // A staff's lines are its own paths; what stands on it is in groups.
  const lines = element.children
    .filter(({ name }) => name === 'path')
    .map(({ attributes }) => readPoints(attributes.d ?? ''));
  const [first, last] = [lines[0], lines.at(-1)];
  if (first?.[1] === undefined || last?.[0] === undefined) return [];
  return [{ element, x0: first[0]!.x, x1: first[1].x, top: first[0]!.y, bottom: last[0].y }];
};

/** The staff whose middle is the nearest. */
const nearest = (staves: readonly StaffLines[], y: number): number => {
  const distances = staves.map(({ top, bottom }) => Math.abs(y - (top + bottom) / 2));
  return distances.indexOf(Math.min(...distances));
};

/** Bar lines span the staves, and bar numbers stand at the starts of lines alone. */
const NO_REACH: ReadonlySet<string> = new Set(['barLine', 'mNum']);

/** Calls back with the heights at which something of an element is drawn. */
const heightsOf = (element: XmlElement, skipped: ReadonlySet<string>, reach: (y: number) => void): void => {
  const { attributes, name } = element;
  if (skipped.has(attributes.id ?? '') || NO_REACH.has(attributes.class?.split(' ')[0] ?? '')) return;
  if (name === 'use') {
    const y = /^translate\(-?[\d.]+, (-?[\d.]+)\)/.exec(attributes.transform ?? '')?.[1];
    if (y !== undefined) reach(Number(y));
  } else if (name === 'path' || name === 'polygon' || name === 'polyline') {
    for (const { y } of readPoints(attributes.d ?? attributes.points ?? '')) reach(y);
  } else if (attributes.y !== undefined) reach(Number(attributes.y));
  for (const child of element.children) heightsOf(child, skipped, reach);
};

const lowestOf = (element: XmlElement, skipped: ReadonlySet<string>): number => {
  let lowest = 0;
  heightsOf(element, skipped, (y) => {
    lowest = Math.max(lowest, y);
  });
  return lowest;
};
