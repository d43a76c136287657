import type { Box } from '../../text/outline.ts';
import { moveBox } from '../drawn-groups.ts';
import { boxesMeet, type Point } from '../outline-boxes.ts';

/** Where something may go, in vu from where it is, the nearest first. */
export type Ways = readonly Point[];

const STEP_VU = 0.5;

/** Up or down (up is -1), so far. */
export const upAndDown = (directions: readonly (-1 | 1)[], farthestVu: number, stepVu = STEP_VU): Ways =>
  Array.from({ length: Math.floor(farthestVu / stepVu) + 1 }, (_, i) => i * stepVu).flatMap((step) =>
    directions.map((direction) => ({ x: 0, y: direction * step })),
  );

/** To the right, so far. */
export const toTheRight = (farthestVu: number): Ways =>
  Array.from({ length: Math.floor(farthestVu / STEP_VU) + 1 }, (_, i) => ({ x: i * STEP_VU, y: 0 }));

/** Sideways a word leaves its moment: that is worth less than to go up or down. */
const SIDEWAYS_COST = 1.5;
const SIDE_STEP_VU = 1;

/** In all directions, as far. */
export const aroundIt = ({ x, y }: Point): Ways => {
  const sides = Array.from({ length: Math.floor(x / SIDE_STEP_VU) + 1 }, (_, i) => i * SIDE_STEP_VU);
  return upAndDown([-1, 1], y)
    .flatMap((way) => sides.flatMap((side) => [side, -side].map((dx) => ({ x: dx, y: way.y }))))
    .sort((a, b) => costOf(a) - costOf(b));
};

const costOf = ({ x, y }: Point): number => Math.abs(y) + SIDEWAYS_COST * Math.abs(x);

/** White round ink, in vu. */
export interface Margins {
  readonly besideVu: number;
  readonly aboveVu: number;
}

/**
 * The nearest way to a place where boxes touch nothing.
 *
 * @param settled what must not be touched
 * @returns in the page's units; null where nothing is free
 */
export const freeWay = (
  boxes: readonly Box[],
  ways: Ways,
  settled: readonly Box[],
  margins: Margins,
  unitsPerVu: number,
): Point | null => {
  const near = nearBoxes(boxes, ways, settled, margins, unitsPerVu);
  const wide = boxes.map((box) => widen(box, margins, unitsPerVu));
  for (const way of ways) {
    const by = scaled(way, unitsPerVu);
    if (wide.every((box) => near.every((other) => !boxesMeet(moveBox(box, by), other)))) return by;
  }
  return null;
};

/** Lines have hardly an area: they get one, lest they cross everything at no cost. */
const HAIRLINE: Margins = { besideVu: 0.4, aboveVu: 0.4 };

/** A place that is not free. */
export interface LeastTouched {
  readonly by: Point;
  /** How much ink lies on other ink there, in vu squared. */
  readonly touchedVu2: number;
}

/** The way to where least ink is touched, the nearest of those that are as good. */
export const leastTouchedWay = (
  boxes: readonly Box[],
  ways: Ways,
  settled: readonly Box[],
  unitsPerVu: number,
): LeastTouched => {
  const near = nearBoxes(boxes, ways, settled, HAIRLINE, unitsPerVu);
  const own = boxes.map((box) => widen(box, HAIRLINE, unitsPerVu));
  let best: Point = { x: 0, y: 0 };
  let least = Number.POSITIVE_INFINITY;
  for (const way of ways) {
    const by = scaled(way, unitsPerVu);
    const touched = own.reduce((sum, box) => sum + commonArea(moveBox(box, by), near), 0);
    if (touched >= least) continue;
    best = by;
    least = touched;
  }
  return { by: best, touchedVu2: least / unitsPerVu ** 2 };
};

const scaled = ({ x, y }: Point, unitsPerVu: number): Point => ({ x: x * unitsPerVu, y: y * unitsPerVu });

const commonArea = (box: Box, others: readonly Box[]): number =>
  others.reduce((sum, other) => {
    const width = Math.min(box.x1, other.x1) - Math.max(box.x0, other.x0);
    const height = Math.min(box.y1, other.y1) - Math.max(box.y0, other.y0);
    return width > 0 && height > 0 ? sum + width * height : sum;
  }, 0);

/** What could be touched on any of the ways: most of a page never is. */
const nearBoxes = (
  boxes: readonly Box[],
  ways: Ways,
  settled: readonly Box[],
  { aboveVu, besideVu }: Margins,
  unitsPerVu: number,
): Box[] => {
  const reach = (axis: 'x' | 'y', margin: number): number =>
    (Math.max(...ways.map((way) => Math.abs(way[axis]))) + margin) * unitsPerVu;
  const [aside, up] = [reach('x', besideVu), reach('y', aboveVu)];
  const around = joinBoxes(boxes);
  const zone = { x0: around.x0 - aside, y0: around.y0 - up, x1: around.x1 + aside, y1: around.y1 + up };
  return settled.filter((box) => boxesMeet(box, zone));
};

/** A box with white round it. */
export const widen = ({ x0, y0, x1, y1 }: Box, { aboveVu, besideVu }: Margins, unitsPerVu: number): Box => ({
  x0: x0 - besideVu * unitsPerVu,
  y0: y0 - aboveVu * unitsPerVu,
  x1: x1 + besideVu * unitsPerVu,
  y1: y1 + aboveVu * unitsPerVu,
});

/** The box that holds all of them. */
export const joinBoxes = (boxes: readonly Box[]): Box => ({
  x0: Math.min(...boxes.map(({ x0 }) => x0)),
  y0: Math.min(...boxes.map(({ y0 }) => y0)),
  x1: Math.max(...boxes.map(({ x1 }) => x1)),
  y1: Math.max(...boxes.map(({ y1 }) => y1)),
});
