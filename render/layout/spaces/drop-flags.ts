import type { Obstacle, Zone } from '../../geometry/obstacles.ts';
import { boxesMeet } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import { APART_VU } from './overlaps.ts';
import { inkOf, type PlacedSpace } from './placed-space.ts';

/** How far a number may come down to its note, in vu, and how near to anything. */
const FARTHEST_VU = 40;
const STEP_VU = 0.5;
const CLEARANCE_VU = 0.6;

/** Where there may be something under the numbers of places. */
export const flagZones = (placed: readonly PlacedSpace[], unitsPerVu: number): Zone[] =>
  placed.filter(isFlag).map(({ box }) => ({ y0: box.y0, y1: box.y1 + (FARTHEST_VU + 1) * unitsPerVu }));

/**
 * Brings the numbers of places down from the level of their line, each as near to the music under it as it is free: high
 * over the staff nobody would see which note is meant.
 */
export const dropFlags = (
  placed: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const settled = [...placed];
  placed.forEach((flag, index) => {
    if (!isFlag(flag)) return;
    const others = settled
      .filter((_, i) => i !== index)
      .map(({ box }) => widen(inkOf(box, unitsPerVu), unitsPerVu));
    const ink = inkOf(flag.box, unitsPerVu);
    const column = [...others, ...obstacles.map(({ box }) => box)].filter(
      ({ x0, x1 }) => x0 < ink.x1 && ink.x0 < x1,
    );
    const down = freeDepth(ink, column, unitsPerVu);
    settled[index] = { ...flag, box: lower(flag.box, down) };
  });
  return settled;
};

const isFlag = ({ room }: PlacedSpace): boolean => room.line === 'flags';

/** How far a box comes down before it meets something; not at all where it stands on something, or nothing is under it. */
const freeDepth = (ink: Box, column: readonly Box[], unitsPerVu: number): number => {
  for (let step = 0; step <= FARTHEST_VU; step += STEP_VU) {
    const moved = lower(ink, (step + CLEARANCE_VU) * unitsPerVu);
    if (column.some((box) => boxesMeet(box, moved))) return Math.max(0, step - STEP_VU) * unitsPerVu;
  }
  return 0;
};

const lower = ({ x0, y0, x1, y1 }: Box, down: number): Box => ({ x0, y0: y0 + down, x1, y1: y1 + down });

const widen = ({ x0, y0, x1, y1 }: Box, unitsPerVu: number): Box => ({
  x0: x0 - APART_VU * unitsPerVu,
  y0,
  x1: x1 + APART_VU * unitsPerVu,
  y1,
});
