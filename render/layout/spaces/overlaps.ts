import type { Obstacle } from '../../geometry/obstacles.ts';
import { boxesMeet } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';

/** Something of ours on a page: the box of its ink, in the page's units. */
export interface PlacedInk {
  readonly id: string;
  readonly ink: Box;
}

/** Two things that stand on one another; `other` is what Verovio calls it, or the id of another thing of ours. */
export interface Overlap {
  readonly id: string;
  readonly other: string;
  readonly ink: Box;
  /** The box that it meets. */
  readonly with: Box;
  readonly isOurs: boolean;
}

/** Between two things of ours side by side, in vu: closer they would read as one. */
export const APART_VU = 1;

/** Finds everything of ours that touches something else on a page; one overlap for each other thing's kind. */
export const findOverlaps = (
  obstacles: readonly Obstacle[],
  placed: readonly PlacedInk[],
  unitsPerVu: number,
): Overlap[] => {
  const overlaps: Overlap[] = [];
  const ours = placed.map(({ id, ink }) => ({ id, wide: widen(ink, APART_VU * unitsPerVu) }));
  for (const { id, ink } of placed) {
    const seen = new Set<string>();
    for (const { kind, box } of obstacles) {
      if (!boxesMeet(box, ink) || seen.has(kind)) continue;
      seen.add(kind);
      overlaps.push({ id, other: kind, ink, with: box, isOurs: false });
    }
    for (const { id: other, wide } of ours) {
      if (other !== id && boxesMeet(wide, ink)) {
        overlaps.push({ id, other, ink, with: wide, isOurs: true });
      }
    }
  }
  return overlaps;
};

const widen = ({ x0, y0, x1, y1 }: Box, by: number): Box => ({ x0: x0 - by, y0, x1: x1 + by, y1 });
