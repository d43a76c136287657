import type { Box } from '../text/outline.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Into how many stretches a long slanting line or a curve is cut: a box round the whole would claim free space. */
const STRETCHES = 10;

export const boxAround = (points: readonly Point[]): Box => {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
  }
  return { x0, y0, x1, y1 };
};

export const boxesMeet = (a: Box, b: Box): boolean =>
  a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;

/** A box with so much more at its left and right. */
export const widenBox = ({ x0, y0, x1, y1 }: Box, by: number): Box => ({ x0: x0 - by, y0, x1: x1 + by, y1 });

const between = (from: Point, to: Point, t: number): Point => ({
  x: from.x + (to.x - from.x) * t,
  y: from.y + (to.y - from.y) * t,
});

/** Boxes along a line: one for a level or upright line. */
export const lineBoxes = (from: Point, to: Point): Box[] => {
  const level = from.x === to.x || from.y === to.y;
  return boxesAlong((t) => [between(from, to, t)], level ? 1 : STRETCHES);
};

/** Boxes along a cubic curve. */
export const curveBoxes = (p: readonly [Point, Point, Point, Point]): Box[] =>
  boxesAlong((t) => {
    const [a, b, c] = [between(p[0], p[1], t), between(p[1], p[2], t), between(p[2], p[3], t)];
    return [between(between(a, b, t), between(b, c, t), t)];
  }, STRETCHES);

/** Boxes of a bar between two slanting edges, such as a beam: the edges run from left to right. */
export const slopeBoxes = (upper: readonly [Point, Point], lower: readonly [Point, Point]): Box[] =>
  boxesAlong((t) => [between(...upper, t), between(...lower, t)], STRETCHES);

const boxesAlong = (pointsAt: (t: number) => readonly Point[], stretches: number): Box[] =>
  Array.from({ length: stretches }, (_, i) =>
    boxAround([...pointsAt(i / stretches), ...pointsAt((i + 1) / stretches)]),
  );

/**
 * Boxes along the outline of path data in absolute commands: exact for the lines and curves that Verovio draws with
 * (M, L, C, Q, Z); of any other command the points it names are boxed as a whole.
 */
export const pathBoxes = (data: string): Box[] => {
  const boxes: Box[] = [];
  let pen: Point = { x: 0, y: 0 };
  for (const [, command = '', list = ''] of data.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const points = readPoints(list);
    if (points.length === 0) continue;
    if (command !== 'M') boxes.push(...segmentBoxes(command, pen, points));
    pen = points.at(-1)!;
  }
  return boxes;
};

const segmentBoxes = (command: string, pen: Point, points: readonly Point[]): Box[] => {
  const boxes: Box[] = [];
  let from = pen;
  switch (command) {
    case 'L':
      for (const to of points) {
        boxes.push(...lineBoxes(from, to));
        from = to;
      }
      return boxes;
    case 'C':
      for (let i = 0; i + 2 < points.length; i += 3) {
        const to = points[i + 2]!;
        boxes.push(...curveBoxes([from, points[i]!, points[i + 1]!, to]));
        from = to;
      }
      return boxes;
    case 'Q':
      for (let i = 0; i + 1 < points.length; i += 2) {
        const [control, to] = [points[i]!, points[i + 1]!];
        // The same curve as a cubic one.
        boxes.push(...curveBoxes([from, between(from, control, 2 / 3), between(to, control, 2 / 3), to]));
        from = to;
      }
      return boxes;
    default:
      return [boxAround([pen, ...points])];
  }
};

/** Pairs of numbers, however they are parted. */
export const readPoints = (list: string): Point[] => {
  const points: Point[] = [];
  NUMBER.lastIndex = 0;
  for (;;) {
    const x = NUMBER.exec(list);
    const y = x === null ? null : NUMBER.exec(list);
    if (x === null || y === null) return points;
    points.push({ x: Number(x[0]), y: Number(y[0]) });
  }
};

const NUMBER = /-?[\d.]+(?:e-?\d+)?/g;
