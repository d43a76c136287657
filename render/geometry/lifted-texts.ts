import { descendantsNamed, type XmlElement } from '../../engine/index.ts';
import type { Box } from '../text/outline.ts';
import type { MovedGroups, Shift } from './moved-groups.ts';
import { findObstacles } from './obstacles.ts';
import { boxesMeet, type Point } from './outline-boxes.ts';
import { textBoxes } from './text-boxes.ts';
import { readTransform } from './transform.ts';

/** What the layout sets over a system without a look at everything that is there; the numbers give way last. */
const WORDS = ['tempo', 'dir', 'reh'] as const;
const NUMBER = 'mNum';

/** Clear of ink to their sides and above and below, in vu. */
const BESIDE_VU = 0.8;
const ABOVE_VU = 0.3;
const STEP_VU = 0.5;
const FARTHEST_VU = 40;

interface LiftedText {
  readonly group: XmlElement;
  /** Where the layout, and what runs over the margin, leaves its letters. */
  readonly boxes: readonly Box[];
  readonly shift: Shift;
}

export interface LiftRequest {
  readonly overhangs: MovedGroups;
  /** Ids of groups that are passed over: they are placed later. */
  readonly passed: ReadonlySet<string>;
  /** The top line of the first staff. */
  readonly staffTop: number;
  readonly unitsPerVu: number;
}

export interface LiftedTexts {
  readonly moved: MovedGroups;
  /** Where the highest of those that were lifted ends; infinity for none. */
  readonly top: number;
}

/**
 * Lifts words and bar numbers over a system off whatever they touch: notes, slurs, the numbers of rests, one another.
 * What stands lowest is settled first; numbers give way to words.
 */
export const liftTexts = (
  svg: string,
  root: XmlElement,
  { overhangs, passed, staffTop, unitsPerVu }: LiftRequest,
): LiftedTexts => {
  const texts = findTexts(svg, root, overhangs).filter(
    ({ boxes }) => boxes.length > 0 && boxes.every(({ y1 }) => y1 < staffTop),
  );
  const settled = findObstacles(svg, root, {
    skipped: passed,
    moved: new Map(),
    zones: [{ y0: Number.NEGATIVE_INFINITY, y1: staffTop }],
    passable: new Set([...WORDS, NUMBER]),
  }).map(({ box }) => box);
  const moved = new Map(overhangs);
  let top = Number.POSITIVE_INFINITY;
  for (const { boxes, group, shift } of texts.sort(byTurn)) {
    const up = freeHeight(boxes, settled, unitsPerVu);
    const own = boxes.map((box) => raise(box, up));
    settled.push(...own);
    if (up === 0) continue;
    moved.set(group.span.start, { dx: shift.dx, dy: shift.dy - up });
    top = Math.min(top, ...own.map(({ y0 }) => y0));
  }
  return { moved, top };
};

/** How far a text has to go up; 0 where nothing is free as far as one may look. */
const freeHeight = (boxes: readonly Box[], settled: readonly Box[], unitsPerVu: number): number => {
  const wide = boxes.map((box) => widen(box, unitsPerVu));
  const x0 = Math.min(...wide.map((box) => box.x0));
  const x1 = Math.max(...wide.map((box) => box.x1));
  const near = settled.filter((box) => box.x0 < x1 && x0 < box.x1);
  for (let step = 0; step <= FARTHEST_VU; step += STEP_VU) {
    const up = step * unitsPerVu;
    const isFree = wide.every((box) => near.every((other) => !boxesMeet(raise(box, up), other)));
    if (isFree) return up;
  }
  return 0;
};

const widen = ({ x0, y0, x1, y1 }: Box, unitsPerVu: number): Box => ({
  x0: x0 - BESIDE_VU * unitsPerVu,
  y0: y0 - ABOVE_VU * unitsPerVu,
  x1: x1 + BESIDE_VU * unitsPerVu,
  y1: y1 + ABOVE_VU * unitsPerVu,
});

const raise = ({ x0, y0, x1, y1 }: Box, up: number): Box => ({ x0, y0: y0 - up, x1, y1: y1 - up });

const bottomOf = ({ boxes }: LiftedText): number => Math.max(...boxes.map(({ y1 }) => y1));

const isNumber = ({ group }: LiftedText): boolean => kindOf(group) === NUMBER;

const byTurn = (a: LiftedText, b: LiftedText): number =>
  Number(isNumber(a)) - Number(isNumber(b)) || bottomOf(b) - bottomOf(a);

const kindOf = ({ attributes }: XmlElement): string => (attributes.class ?? '').split(' ')[0]!;

const KINDS: ReadonlySet<string> = new Set([...WORDS, NUMBER]);
const NO_SHIFT: Shift = { dx: 0, dy: 0 };

/** The words and numbers of a system with the boxes of their letters, and of the frames round them, in the page's units. */
const findTexts = (svg: string, root: XmlElement, overhangs: MovedGroups): LiftedText[] => {
  const found: LiftedText[] = [];
  const visit = (element: XmlElement, origin: Point): void => {
    if (KINDS.has(kindOf(element))) {
      const shift = overhangs.get(element.span.start) ?? NO_SHIFT;
      const boxes = inkOf(svg, element).map((box) => move(box, origin.x + shift.dx, origin.y + shift.dy));
      found.push({ group: element, boxes, shift });
      return;
    }
    const { e, f } =
      element.attributes.class === 'page-margin'
        ? readTransform(element.attributes.transform)
        : { e: origin.x, f: origin.y };
    for (const each of element.children) visit(each, { x: e, y: f });
  };
  visit(root, { x: 0, y: 0 });
  return found;
};

const inkOf = (svg: string, group: XmlElement): Box[] => [
  ...descendantsNamed(group, 'text').flatMap((text) => textBoxes(svg, text)),
  ...descendantsNamed(group, 'rect').map(({ attributes }) => {
    const [x, y, width, height] = [attributes.x, attributes.y, attributes.width, attributes.height].map(
      Number,
    );
    return { x0: x!, y0: y!, x1: x! + width!, y1: y! + height! };
  }),
];

const move = ({ x0, y0, x1, y1 }: Box, dx: number, dy: number): Box => ({
  x0: x0 + dx,
  y0: y0 + dy,
  x1: x1 + dx,
  y1: y1 + dy,
});
