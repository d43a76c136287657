import type { XmlElement } from '../../../engine/index.ts';
import { readNoteEdges } from '../../geometry/note-edges.ts';
import { boxAround, pathBoxes, readPoints } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import { type Outline, type Reach, type StaffLines, startOutline } from './outline.ts';

/** A bar as it is by nature; a joined rest is one. Lengths in vu (half staff spaces). */
export interface NaturalBar extends Reach {
  /** Its id in the document. */
  readonly id: string;
  /** Where it begins on the line. */
  readonly x: number;
  readonly width: number;
}

/** What an unbroken line tells. */
export interface NaturalLine {
  readonly bars: readonly NaturalBar[];
  /** Left edges of notes and rests on the line, by their ids. */
  readonly edges: Readonly<Record<string, number>>;
  /** Height of the heading over it. */
  readonly heading: number;
}

/**
 * Reads the natural width of each bar, and roughly how high it is, from music laid out as one line. Heights are
 * those of the glyphs' origins: enough to say how many systems a page will hold; the systems themselves tell it exactly.
 */
export const measureBars = (root: XmlElement, unitsPerVu: number): NaturalLine => {
  const bars: { id: string; x0: number; x1: number }[] = [];
  let outline: Outline | null = null;
  let heading = 0;
  const visit = (element: XmlElement): void => {
    const { id, class: name } = element.attributes;
    if (name === 'pgHead') heading = Math.max(heading, lowestOf(element) / unitsPerVu);
    else if (name === 'measure') {
      const staves = element.children.flatMap(readStaff);
      if (staves.length === 0) return;
      outline ??= startOutline(staves, unitsPerVu);
      claimInk(element, outline);
      bars.push({ id: id ?? '', x0: staves[0]!.x0, x1: staves[0]!.x1 });
    } else for (const each of element.children) visit(each);
  };
  visit(root);
  return {
    bars: bars.map(({ id, x0, x1 }) => ({
      id,
      x: x0 / unitsPerVu,
      width: (x1 - x0) / unitsPerVu,
      ...outline!.between(x0, x1),
    })),
    edges: Object.fromEntries([...readNoteEdges(root)].map(([id, x]) => [id, x / unitsPerVu])),
    heading,
  };
};

const readStaff = (element: XmlElement): (StaffLines & { readonly x0: number; readonly x1: number })[] => {
  if (element.attributes.class !== 'staff') return [];
  // A staff's lines are its own paths; what stands on it is in groups.
  const lines = element.children
    .filter(({ name }) => name === 'path')
    .map(({ attributes }) => readPoints(attributes.d ?? ''));
  const [first, last] = [lines[0], lines.at(-1)];
  if (first?.[1] === undefined || last?.[0] === undefined) return [];
  return [{ x0: first[0]!.x, x1: first[1].x, top: first[0]!.y, bottom: last[0].y }];
};

/** What the layout brings to one level all along a line, which here is the whole part: its height says nothing. */
const LEVELLED: ReadonlySet<string> = new Set(['dynam', 'hairpin', 'pedal', 'dir', 'octave']);

/** Tells the outline of everything that a measure draws; what stands in a staff belongs to it wherever it reaches. */
const claimInk = (measure: XmlElement, outline: Outline): void => {
  let staff = 0;
  for (const child of measure.children) {
    const owner = readStaff(child).length > 0 ? staff : null;
    if (owner !== null) staff += 1;
    const name = child.attributes.class?.split(' ')[0] ?? '';
    if (LEVELLED.has(name)) inkOf(child, outline.claimLevelled);
    else inkOf(child, (box) => outline.claim(box, owner));
  }
};

/** Bar lines and arpeggios span the staves, and bar numbers stand at the starts of lines alone. */
const NO_REACH: ReadonlySet<string> = new Set(['barLine', 'arpeg', 'mNum']);

/** Calls back with a box for each shape of an element: of glyphs and words, their origins. */
const inkOf = (element: XmlElement, tell: (box: Box) => void): void => {
  const { attributes, name } = element;
  if (NO_REACH.has(attributes.class?.split(' ')[0] ?? '')) return;
  if (name === 'use') {
    const place = /^translate\((-?[\d.]+), (-?[\d.]+)\)/.exec(attributes.transform ?? '');
    if (place !== null) tell(pointBox(Number(place[1]), Number(place[2])));
  } else if (name === 'path' && attributes.d?.includes('C')) pathBoxes(attributes.d).forEach(tell);
  else if (name === 'path' || name === 'polygon' || name === 'polyline') {
    const box = boxAround(readPoints(attributes.d ?? attributes.points ?? ''));
    if (box.y0 <= box.y1) tell(box);
  } else if (attributes.x !== undefined && attributes.y !== undefined)
    tell(pointBox(Number(attributes.x), Number(attributes.y)));
  for (const child of element.children) inkOf(child, tell);
};

const pointBox = (x: number, y: number): Box => ({ x0: x, y0: y, x1: x, y1: y });

const lowestOf = (element: XmlElement): number => {
  let lowest = 0;
  inkOf(element, ({ y1 }) => {
    lowest = Math.max(lowest, y1);
  });
  return lowest;
};
