import type { Obstacle } from '../../geometry/obstacles.ts';
import { boxesMeet, widenBox } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import type { SpaceRow } from './reserve-spaces.ts';

/** Something of ours on a page: the box of its ink, in the page's units. */
export interface PlacedInk {
  readonly id: string;
  readonly ink: Box;
  readonly row: SpaceRow;
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

/**
 * Between two things of ours side by side, in vu: closer they would read as one. Between the letters of two changes is more
 * than between two words.
 */
export const APART_VU: Readonly<Record<SpaceRow, number>> = { markings: 2, flags: 1, start: 1, counts: 1 };

/** Between things of two rows, in vu. */
export const BESIDE_OTHERS_VU = 1;

/** Finds everything of ours that touches something else on a page; one overlap for each other thing's kind. */
export const findOverlaps = (
  obstacles: readonly Obstacle[],
  placed: readonly PlacedInk[],
  unitsPerVu: number,
): Overlap[] => {
  const overlaps: Overlap[] = [];
  const apart = (row: SpaceRow, other: SpaceRow): number =>
    row === other ? APART_VU[row] : BESIDE_OTHERS_VU;
  const ours = placed.map(({ id, row, ink }) => ({
    id,
    wideAt: (other: SpaceRow) => widenBox(ink, apart(row, other) * unitsPerVu),
  }));
  for (const { id, ink, row } of placed) {
    const seen = new Set<string>();
    for (const { kind, box } of obstacles) {
      if (!boxesMeet(box, ink) || seen.has(kind)) continue;
      seen.add(kind);
      overlaps.push({ id, other: kind, ink, with: box, isOurs: false });
    }
    for (const { id: other, wideAt } of ours) {
      const wide = wideAt(row);
      if (other !== id && boxesMeet(wide, ink)) {
        overlaps.push({ id, other, ink, with: wide, isOurs: true });
      }
    }
  }
  return overlaps;
};
