import type { Box } from '../glyphs.ts';

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

/** Boxes along the outline of path data in Verovio's absolute commands M, L, C and Z. */
export const pathBoxes = (data: string): Box[] => {
  const boxes: Box[] = [];
  let pen: Point = { x: 0, y: 0 };
  for (const [, command = '', list = ''] of data.matchAll(/([A-Za-z])([^A-Za-z]*)/g)) {
    const points = readPoints(list);
    if (command === 'M') pen = points.at(-1) ?? pen;
    else if (command === 'L') {
      for (const point of points) {
        boxes.push(...lineBoxes(pen, point));
        pen = point;
      }
    } else if (command === 'C') {
      for (let i = 0; i + 2 < points.length; i += 3) {
        boxes.push(...curveBoxes([pen, points[i]!, points[i + 1]!, points[i + 2]!]));
        pen = points[i + 2]!;
      }
    } else if (command.toUpperCase() !== 'Z')
      throw new Error(`SVG path command “${command}” is not supported`);
  }
  return boxes;
};

export const readPoints = (list: string): Point[] => {
  const numbers = (list.match(/-?[\d.]+(?:e-?\d+)?/g) ?? []).map(Number);
  return Array.from({ length: numbers.length >> 1 }, (_, i) => ({
    x: numbers[2 * i]!,
    y: numbers[2 * i + 1]!,
  }));
};
