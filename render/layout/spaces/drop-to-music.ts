import { group } from 'd3-array';
import type { MarkingPlacement } from '../../engraving-options.ts';
import { moveBox } from '../../geometry/drawn-groups.ts';
import type { Obstacle, Zone } from '../../geometry/obstacles.ts';
import { boxesMeet, widenBox } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import { BESIDE_OTHERS_VU } from './overlaps.ts';
import { inkOf, type PlacedSpace, shiftSpace } from './placed-space.ts';
import { levelOf, type SpaceRow } from './reserve-spaces.ts';

/** How far something may come down to the music, in vu, and how near to anything. */
const FARTHEST_VU = 90;
const STEP_VU = 0.5;
const CLEARANCE_VU = 0.6;
/** What is nearer than that goes up, this far at the most. */
const HIGHEST_VU = 3;

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
    .map(({ box }) => ({
      y0: box.y0 - (HIGHEST_VU + 1) * unitsPerVu,
      y1: box.y1 + (FARTHEST_VU + 1) * unitsPerVu,
    }));
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
    const dropped = lines.reduce((now, line) => dropLine(line, now, obstacles, unitsPerVu), settled);
    if (row === 'start') return dropped;
    return lines.reduce((now, line) => passFarWords(line, now, obstacles, unitsPerVu), dropped);
  }, placed);

/** Counts that are farther from the staff are read with what is between. */
const FAR_VU = 14;

/**
 * Where a line would stand over the title of a movement, or a number over the table of levers, it goes under it: together
 * if it can, else each of its bars by itself, if there is room for all of them.
 */
const passFarWords = (
  line: readonly PlacedSpace[],
  placed: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const ids = new Set(line.map(({ room }) => room.id));
  const own = placed.filter(({ room }) => ids.has(room.id));
  const lowest = Math.max(...own.map(({ box }) => box.y1));
  const staffTop = Math.min(
    ...obstacles.filter(({ kind, box }) => kind === 'staff' && box.y0 > lowest).map(({ box }) => box.y0),
  );
  if (!Number.isFinite(staffTop) || staffTop - lowest < FAR_VU * unitsPerVu) return placed;
  const depthOf = (some: readonly PlacedSpace[]): number =>
    deepestFree(columnsOf(some, placed, obstacles, unitsPerVu), staffTop, unitsPerVu);
  const together = depthOf(own);
  if (together > 0) return moveDown(own, placed, together);
  const bars = [...group(own, ({ room }) => `${levelOf(room)};${room.bar}`).values()];
  const depths = bars.map(depthOf);
  return depths.every((down) => down > 0)
    ? bars.reduce((now, bar, i) => moveDown(bar, now, depths[i]!), placed)
    : placed;
};

/** How far boxes come down together to where all of them are free, whatever they pass. */
const deepestFree = (columns: readonly Column[], floor: number, unitsPerVu: number): number => {
  const isClear = (down: number): boolean =>
    columns.every(({ ink, solid }) => {
      const moved = moveBox(ink, { x: 0, y: down });
      const wanted = {
        ...moved,
        y0: moved.y0 - CLEARANCE_VU * unitsPerVu,
        y1: moved.y1 + CLEARANCE_VU * unitsPerVu,
      };
      return wanted.y1 <= floor && !solid.some((box) => boxesMeet(box, wanted));
    });
  for (let step = FARTHEST_VU; step > 0; step -= STEP_VU)
    if (isClear(step * unitsPerVu)) return step * unitsPerVu;
  return 0;
};

/** Some of the drawings as far down as all of them are free. */
const dropLine = (
  line: readonly PlacedSpace[],
  placed: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const columns = columnsOf(line, placed, obstacles, unitsPerVu);
  const depths = columns.flatMap((column) => freeDepth(column, unitsPerVu) ?? []);
  const lowest = depths.length === 0 ? 0 : Math.min(...depths);
  return moveDown(line, placed, lowest > 0 ? lowest : -freeHeight(columns, unitsPerVu));
};

const moveDown = (
  line: readonly PlacedSpace[],
  placed: readonly PlacedSpace[],
  down: number,
): readonly PlacedSpace[] => {
  const own = new Set(line.map(({ room }) => room.id));
  return down === 0
    ? placed
    : placed.map((each) => (own.has(each.room.id) ? shiftSpace(each, 0, down) : each));
};

/** Beside a count, in vu: over the head of a note it must not slip down beside its stem. */
const BESIDE_COUNT_VU = 1.5;

const columnsOf = (
  line: readonly PlacedSpace[],
  placed: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  unitsPerVu: number,
): readonly Column[] => {
  const own = new Set(line.map(({ room }) => room.id));
  const others = placed
    .filter(({ room }) => !own.has(room.id))
    .map(({ box }) => widenBox(inkOf(box, unitsPerVu), BESIDE_OTHERS_VU * unitsPerVu));
  const solid = [...others, ...obstacles.map(({ box }) => box)];
  return line.map(({ box, room }) => {
    const besideVu = room.line === 'counts' ? BESIDE_COUNT_VU : 0;
    const ink = widenBox(inkOf(box, unitsPerVu), besideVu * unitsPerVu);
    return { ink, solid: solid.filter(({ x0, x1 }) => x0 < ink.x1 && ink.x0 < x1) };
  });
};

/** A drawing's ink, and all that stands over and under it. */
interface Column {
  readonly ink: Box;
  readonly solid: readonly Box[];
}

/** How far a box comes down before it meets something; not at all where it stands on something, null if nothing is under it. */
const freeDepth = ({ ink, solid }: Column, unitsPerVu: number): number | null => {
  for (let step = 0; step <= FARTHEST_VU; step += STEP_VU) {
    const moved = moveBox(ink, { x: 0, y: (step + CLEARANCE_VU) * unitsPerVu });
    if (solid.some((box) => boxesMeet(box, moved))) return Math.max(0, step - STEP_VU) * unitsPerVu;
  }
  return null;
};

/** How far boxes go up together until they are clear of what is under them; not at all where that does not help. */
const freeHeight = (columns: readonly Column[], unitsPerVu: number): number => {
  const isClear = (step: number): boolean =>
    columns.every(({ ink, solid }) => {
      const up = moveBox(ink, { x: 0, y: -step * unitsPerVu });
      const wanted = { ...up, y1: up.y1 + CLEARANCE_VU * unitsPerVu };
      return !solid.some((box) => boxesMeet(box, wanted));
    });
  for (let step = 0; step <= HIGHEST_VU; step += STEP_VU) if (isClear(step)) return step * unitsPerVu;
  return 0;
};
