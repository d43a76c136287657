import { group } from 'd3-array';
import type { MarkingPlacement } from '../../engraving-options.ts';
import type { Obstacle } from '../../geometry/obstacles.ts';
import { boxesMeet, widenBox } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import { APART_VU, findOverlaps, type Overlap } from './overlaps.ts';
import { headAndWords, type PlacedSpace, placedInks, shiftSpace } from './placed-space.ts';
import { levelOf, sideOf, standsBetween } from './reserve-spaces.ts';
import { type GivingWay, givesWay, setInRows, showsRows } from './rows-of-feet.ts';
import { alignHeads, lowerWords } from './words-apart.ts';

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
    const own = new Set(line.map(({ room: { id } }) => id));
    const others = settled.filter(({ room: { id } }) => !own.has(id));
    const { room } = line[0]!;
    // Between the staves the next one is near, on either side.
    const isBetween = standsBetween(room, placement);
    const inRows = !isBetween && showsRows(line) ? setInRows(line, unitsPerVu) : line;
    const directions = isBetween ? ([1, -1] as const) : sideOf(room.line, placement) === 'above' ? UP : DOWN;
    const most = isBetween ? shiftLimit.near : farthest;
    const freed = freeLine(inRows, others, obstacles, { directions, most, unitsPerVu });
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
  line: readonly PlacedSpace[],
  others: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  { directions, most, unitsPerVu }: Leeway,
): readonly PlacedSpace[] => {
  const near = nearObstacles(line, obstacles, most * unitsPerVu);
  const touches = (moved: readonly PlacedSpace[]): Overlap[] => {
    const own = new Set(moved.map(({ room }) => room.id));
    const inks = [...moved, ...others].flatMap((each) => placedInks(each, unitsPerVu));
    return findOverlaps(near, inks, unitsPerVu).filter(({ id }) => own.has(id));
  };
  const before = touches(line);
  if (before.length === 0) return line;
  const rightEnd = Math.max(...obstacles.map(({ box }) => box.x1));
  let best: readonly PlacedSpace[] = line;
  let fewest = before.length;
  for (const parted of waysToPart(line, before, { directions, most, unitsPerVu }, rightEnd)) {
    for (let step = 0; step <= most && fewest > 0; step += STEP_VU) {
      for (const direction of directions) {
        const moved = parted.map((each) => shiftSpace(each, 0, direction * step * unitsPerVu));
        const left = touches(moved).length;
        if (left >= fewest) continue;
        best = moved;
        fewest = left;
      }
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

/**
 * Neighbours of a line that touch each other: the left one gives way by a little, so that its letter stays at its beat;
 * words are set lower; where that is not enough, the right one goes outwards. Between the staves, where there is little
 * room for that, the left one may go as far as it takes at last, which never leads past the note that it stands before.
 */
const waysToPart = (
  line: readonly PlacedSpace[],
  overlaps: readonly Overlap[],
  { directions, unitsPerVu }: Leeway,
  rightEnd: number,
): readonly (readonly PlacedSpace[])[] => {
  const own = new Set(line.map(({ room }) => room.id));
  if (!overlaps.some(({ other, isOurs }) => isOurs && own.has(other))) return [line];
  const isBetween = directions.length > 1;
  const pushed = pushLeft(line, AT_ITS_BEAT_VU, unitsPerVu);
  if (isBetween) {
    const stepped = stepAside(pushed, () => ({ direction: directions[0]!, leastVu: 0 }), unitsPerVu);
    return [stepped, pushLeft(line, Number.POSITIVE_INFINITY, unitsPerVu)];
  }
  const stepped = (each: readonly PlacedSpace[]): readonly PlacedSpace[] => {
    const step = (from: readonly PlacedSpace[]): readonly PlacedSpace[] =>
      stepAside(from, (room) => givesWay(room, directions[0]!), unitsPerVu);
    const wasAt = new Map(each.map(({ room, box }) => [room.id, box.y0]));
    const asSet = step(each);
    return asSet.every(({ room, box }) => box.y0 === wasAt.get(room.id))
      ? asSet
      : step(setInRows(each, unitsPerVu));
  };
  const hasWords = directions[0] === 1 && line.some(({ room }) => room.headVu !== undefined);
  return [
    hasWords ? lowerWords(stepped(alignHeads(pushed, unitsPerVu)), rightEnd, unitsPerVu) : stepped(pushed),
  ];
};

/** A letter is still at its beat where it is moved by so much, in vu: less than a notehead is wide. */
export const AT_ITS_BEAT_VU = 1.6;

/** What is wide, as a full setting, is still at its beat where it is moved by such a share of it. */
const SHARE_AT_ITS_BEAT = 0.25;

/** @param mostVu how far anything may be moved that is not wide */
const pushLeft = (
  line: readonly PlacedSpace[],
  mostVu: number,
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  let rightEnd = Number.POSITIVE_INFINITY;
  const headOf = (each: PlacedSpace): Box => headAndWords(each, unitsPerVu).head;
  return line
    .toSorted((a, b) => headOf(b).x1 - headOf(a).x1)
    .map((each) => {
      const gap = (APART_VU[each.room.line] + CLEARANCE_VU) * unitsPerVu;
      const wanted = Math.min(0, rightEnd - gap - headOf(each).x1);
      const most = Math.max(mostVu * unitsPerVu, SHARE_AT_ITS_BEAT * (headOf(each).x1 - headOf(each).x0));
      const moved = shiftSpace(each, Math.max(wanted, -most), 0);
      rightEnd = headOf(moved).x0;
      return moved;
    });
};

/** From left to right, each letter just past those before it that it would touch. */
const stepAside = (
  line: readonly PlacedSpace[],
  wayOf: (room: PlacedSpace['room']) => GivingWay,
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const settled: PlacedSpace[] = [];
  for (const each of line.toSorted((a, b) => a.box.x0 - b.box.x0)) {
    const beside = APART_VU[each.room.line] * unitsPerVu;
    const { direction, leastVu } = wayOf(each.room);
    const stepOf = (moved: PlacedSpace): number => {
      const { head } = headAndWords(moved, unitsPerVu);
      const wide = widenBox(head, beside);
      const met = settled
        .map((other) => headAndWords(other, unitsPerVu).head)
        .filter((other) => boxesMeet(other, wide));
      return Math.max(
        0,
        ...met.map(
          ({ y0, y1 }) => (direction === 1 ? y1 - head.y0 : head.y1 - y0) + CLEARANCE_VU * unitsPerVu,
        ),
      );
    };
    let moved = each;
    let least = leastVu * unitsPerVu;
    for (let way = stepOf(moved); way > 0; way = stepOf(moved)) {
      moved = shiftSpace(moved, 0, direction * Math.max(way, least));
      least = 0;
    }
    settled.push(moved);
  }
  return settled;
};
