import { group } from 'd3-array';
import type { MarkingPlacement } from '../../engraving-options.ts';
import type { Obstacle, Zone } from '../../geometry/obstacles.ts';
import { boxesMeet } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import { APART_VU } from './overlaps.ts';
import { inkOf, type PlacedSpace } from './placed-space.ts';
import { levelOf, type SpaceRow } from './reserve-spaces.ts';

/** How far something may come down to the music, in vu, and how near to anything. */
const FARTHEST_VU = 40;
const STEP_VU = 0.5;
const CLEARANCE_VU = 0.6;

/**
 * What comes down, in this order. Counts keep one level in a line; what is told before the first note follows them, as
 * nothing else parts it from the staff.
 */
const droppedRows = (
  placed: readonly PlacedSpace[],
  placement: MarkingPlacement,
): readonly (readonly [row: SpaceRow, together: boolean])[] => {
  const isCounted = placement !== 'above' && placed.some(({ room }) => room.line === 'counts');
  return isCounted
    ? [
        ['counts', true],
        ['start', false],
        ['flags', false],
      ]
    : [['flags', false]];
};

/** Where there may be something under what comes down. */
export const zonesUnder = (
  placed: readonly PlacedSpace[],
  placement: MarkingPlacement,
  unitsPerVu: number,
): Zone[] => {
  const rows = droppedRows(placed, placement).map(([row]) => row);
  return placed
    .filter(({ room }) => rows.includes(room.line))
    .map(({ box }) => ({ y0: box.y0, y1: box.y1 + (FARTHEST_VU + 1) * unitsPerVu }));
};

/**
 * Brings the numbers of places down from the level of their line, each as near to the music under it as it is free: high
 * over the staff nobody would see which note is meant. So do the counts of a line, which the layout has set over what
 * was moved down since.
 */
export const dropToMusic = (
  placed: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  placement: MarkingPlacement,
  unitsPerVu: number,
): readonly PlacedSpace[] =>
  droppedRows(placed, placement).reduce<readonly PlacedSpace[]>((settled, [row, together]) => {
    const own = settled.filter(({ room }) => room.line === row);
    const lines = together
      ? [...group(own, ({ room }) => levelOf(room)).values()]
      : own.map((each) => [each]);
    return lines.reduce((now, line) => dropLine(line, now, obstacles, unitsPerVu), settled);
  }, placed);

/** Some of the drawings as far down as all of them are free. */
const dropLine = (
  line: readonly PlacedSpace[],
  placed: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const own = new Set(line.map(({ room }) => room.id));
  const others = placed
    .filter(({ room }) => !own.has(room.id))
    .map(({ box }) => widen(inkOf(box, unitsPerVu), unitsPerVu));
  const solid = [...others, ...obstacles.map(({ box }) => box)];
  const depths = line.flatMap(({ box }) => {
    const ink = inkOf(box, unitsPerVu);
    const column = solid.filter(({ x0, x1 }) => x0 < ink.x1 && ink.x0 < x1);
    return freeDepth(ink, column, unitsPerVu) ?? [];
  });
  const down = depths.length === 0 ? 0 : Math.min(...depths);
  return down === 0
    ? placed
    : placed.map((each) => (own.has(each.room.id) ? { ...each, box: lower(each.box, down) } : each));
};

/** How far a box comes down before it meets something; not at all where it stands on something, null if nothing is under it. */
const freeDepth = (ink: Box, column: readonly Box[], unitsPerVu: number): number | null => {
  for (let step = 0; step <= FARTHEST_VU; step += STEP_VU) {
    const moved = lower(ink, (step + CLEARANCE_VU) * unitsPerVu);
    if (column.some((box) => boxesMeet(box, moved))) return Math.max(0, step - STEP_VU) * unitsPerVu;
  }
  return null;
};

const lower = ({ x0, y0, x1, y1 }: Box, down: number): Box => ({ x0, y0: y0 + down, x1, y1: y1 + down });

const widen = ({ x0, y0, x1, y1 }: Box, unitsPerVu: number): Box => ({
  x0: x0 - APART_VU * unitsPerVu,
  y0,
  x1: x1 + APART_VU * unitsPerVu,
  y1,
});
