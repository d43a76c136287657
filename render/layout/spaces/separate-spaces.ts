import { group } from 'd3-array';
import type { MarkingPlacement } from '../../engraving-options.ts';
import { moveBox } from '../../geometry/drawn-groups.ts';
import type { Obstacle } from '../../geometry/obstacles.ts';
import { APART_VU, findOverlaps, type Overlap } from './overlaps.ts';
import { claimOf, inkOf, type PlacedSpace } from './placed-space.ts';
import { levelOf, sideOf, standsBetween } from './reserve-spaces.ts';

/** How far a line of markings may be moved, in vu: where that is enough, and where it takes more. */
export const shiftLimit = { near: 7, far: 60 } as const;
/** Between two things that were moved apart, in vu. */
const CLEARANCE_VU = 0.4;

/**
 * Moves drawings where they touch something and there is free space: all of a line together away from the
 * staff, and neighbours that touch each other apart. What cannot be freed stays where it was.
 *
 * The layout leaves such overlaps since it brings the texts of a system to one level and does not look again.
 */
export const separateSpaces = (
  placed: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  placement: MarkingPlacement,
  unitsPerVu: number,
  farthest: number,
): readonly PlacedSpace[] => {
  let settled = placed;
  for (const line of linesOf(placed)) {
    const others = settled.filter((each) => !line.includes(each));
    const { room } = line[0]!;
    // Between the staves the next one is near, on either side.
    const isBetween = standsBetween(room, placement);
    const directions = isBetween ? ([1, -1] as const) : sideOf(room.line, placement) === 'above' ? UP : DOWN;
    const most = isBetween ? shiftLimit.near : farthest;
    const freed = freeLine(line, others, obstacles, { directions, most, unitsPerVu });
    if (freed === line) continue;
    const moved = new Map(freed.map((each) => [each.room.id, each]));
    settled = settled.map((each) => moved.get(each.room.id) ?? each);
  }
  return settled;
};

const linesOf = (placed: readonly PlacedSpace[]): PlacedSpace[][] => [
  ...group(placed, ({ room }) => levelOf(room)).values(),
];

const UP = [-1] as const;
const DOWN = [1] as const;

/** Which ways a line may be moved, and how far (in vu). */
interface Leeway {
  readonly directions: readonly (1 | -1)[];
  readonly most: number;
  readonly unitsPerVu: number;
}

const freeLine = (
  line: PlacedSpace[],
  others: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  { directions, most, unitsPerVu }: Leeway,
): readonly PlacedSpace[] => {
  const near = nearObstacles(line, obstacles, most * unitsPerVu);
  const touches = (moved: readonly PlacedSpace[]): Overlap[] => {
    const own = new Set(moved.map(({ room }) => room.id));
    const inks = [...moved, ...others].map((each) => ({ id: each.room.id, ink: claimOf(each, unitsPerVu) }));
    return findOverlaps(near, inks, unitsPerVu).filter(({ id }) => own.has(id));
  };
  const before = touches(line);
  if (before.length === 0) return line;
  const parted = partNeighbours(line, before, unitsPerVu);
  let best: readonly PlacedSpace[] = line;
  let fewest = before.length;
  for (let step = 0; step <= most && fewest > 0; step += STEP_VU) {
    for (const direction of directions) {
      const moved = parted.map((each) => shiftRoom(each, 0, direction * step * unitsPerVu));
      const left = touches(moved).length;
      if (left >= fewest) continue;
      best = moved;
      fewest = left;
    }
  }
  return best;
};

const STEP_VU = 0.5;

const nearObstacles = (
  line: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  reach: number,
): Obstacle[] => {
  const y0 = Math.min(...line.map(({ box }) => box.y0)) - reach;
  const y1 = Math.max(...line.map(({ box }) => box.y1)) + reach;
  return obstacles.filter(({ box }) => box.y0 < y1 && y0 < box.y1);
};

/** Neighbours of a line that touch each other give way to the left: none is moved past the note that it stands before. */
const partNeighbours = (
  line: readonly PlacedSpace[],
  overlaps: readonly Overlap[],
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const own = new Set(line.map(({ room }) => room.id));
  if (!overlaps.some(({ other, isOurs }) => isOurs && own.has(other))) return line;
  const gap = (APART_VU + CLEARANCE_VU) * unitsPerVu;
  let rightEnd = Number.POSITIVE_INFINITY;
  return [...line]
    .sort((a, b) => b.box.x1 - a.box.x1)
    .map((each) => {
      const moved = shiftRoom(each, Math.min(0, rightEnd - gap - inkOf(each.box, unitsPerVu).x1), 0);
      rightEnd = inkOf(moved.box, unitsPerVu).x0;
      return moved;
    });
};

const shiftRoom = (placed: PlacedSpace, dx: number, dy: number): PlacedSpace => ({
  ...placed,
  box: moveBox(placed.box, { x: dx, y: dy }),
});
