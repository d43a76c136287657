import { group } from 'd3-array';
import type { MarkingPlacement } from '../../engraving-options.ts';
import type { Obstacle } from '../../geometry/obstacles.ts';
import { boxesMeet, widenBox } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import { APART_VU } from './overlaps.ts';
import { inksOf, type PlacedSpace, shiftSpace } from './placed-space.ts';
import { levelOf, sideOf, standsBetween } from './reserve-spaces.ts';
import { alignHeads } from './words-apart.ts';

/** How far a line may come up to the music, in vu, and how near to anything. */
const FARTHEST_VU = 60;
const STEP_VU = 0.5;
const CLEARANCE_VU = 1;

/**
 * What may come up of the markings under a system, each by itself: the layout sets all of a line on the level of the lowest,
 * and goes lower still where two of them have no room beside each other before they are parted. Of letters without words
 * those near each other stay together.
 */
export const linesToRaise = (
  placed: readonly PlacedSpace[],
  placement: MarkingPlacement,
  unitsPerVu: number,
): readonly (readonly PlacedSpace[])[] => {
  const outer = placed.filter(
    ({ room }) =>
      room.line === 'markings' &&
      sideOf('markings', placement) === 'below' &&
      !standsBetween(room, placement),
  );
  return [...group(outer, ({ room }) => levelOf(room)).values()].flatMap((line) =>
    hasWords(line) ? [line] : partFar(line, FAR_VU * unitsPerVu),
  );
};

/** Letters so far from the next, in vu, are not read as of one row with them. */
const FAR_VU = 28;

export const hasWords = (line: readonly PlacedSpace[]): boolean =>
  line.some(({ room }) => room.headVu !== undefined);

const partFar = (line: readonly PlacedSpace[], far: number): readonly (readonly PlacedSpace[])[] => {
  const parts: PlacedSpace[][] = [];
  let end = Number.NEGATIVE_INFINITY;
  for (const each of line.toSorted((a, b) => a.box.x0 - b.box.x0)) {
    if (each.box.x0 - end > far) parts.push([]);
    parts.at(-1)!.push(each);
    end = Math.max(end, each.box.x1);
  }
  return parts;
};

/**
 * Sets what the words of a line stand under on one level, as letters without words stand, where that takes little height,
 * and brings all of the line up as far as they are free; letters without words only where they gain much by it.
 */
export const raiseToMusic = (
  line: readonly PlacedSpace[],
  placed: readonly PlacedSpace[],
  obstacles: readonly Obstacle[],
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const own = new Set(line.map(({ room }) => room.id));
  const others = placed.filter(({ room }) => !own.has(room.id)).flatMap((each) => inksOf(each, unitsPerVu));
  const solid = [...others, ...obstacles.map(({ box }) => box)];
  if (!hasWords(line)) return withBoxes(placed, bringFarUp(line, solid, unitsPerVu));
  const most = bottomOf(line) + MOST_LOWER_VU * unitsPerVu;
  const raised = [alignHeads(line, unitsPerVu), line]
    .filter((each) => areFree(each, solid, unitsPerVu))
    .map((each) => bringUp(each, solid, unitsPerVu))
    .find((each) => bottomOf(each) <= most);
  return raised === undefined ? placed : withBoxes(placed, raised);
};

const withBoxes = (placed: readonly PlacedSpace[], moved: readonly PlacedSpace[]): readonly PlacedSpace[] => {
  const boxOf = new Map(moved.map(({ room, box }) => [room.id, box]));
  return placed.map((each) => ({ ...each, box: boxOf.get(each.room.id) ?? each.box }));
};

/** One level of a line is worth so much height; letters without words leave the music so much white. */
const LEAST_GAIN_VU = 4;
const UNDER_MUSIC_VU = 2;
const BESIDE_MUSIC_VU = 1;

/** Letters far below the music near them come up to it. */
const bringFarUp = (
  line: readonly PlacedSpace[],
  solid: readonly Box[],
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  const white = (UNDER_MUSIC_VU - CLEARANCE_VU) * unitsPerVu;
  const around = solid.map((box) => ({ ...widenBox(box, BESIDE_MUSIC_VU * unitsPerVu), y1: box.y1 + white }));
  const raised = bringUp(line, around, unitsPerVu);
  return bottomOf(line) - bottomOf(raised) < LEAST_GAIN_VU * unitsPerVu ? line : raised;
};

/** One level is worth so much more height. */
const MOST_LOWER_VU = 2;

const bottomOf = (line: readonly PlacedSpace[]): number => Math.max(...line.map(({ box }) => box.y1));

/** A line as far up together as all of it is free. */
const bringUp = (
  line: readonly PlacedSpace[],
  solid: readonly Box[],
  unitsPerVu: number,
): readonly PlacedSpace[] => {
  let best = line;
  for (let step = STEP_VU; step <= FARTHEST_VU; step += STEP_VU) {
    const moved = line.map((each) => shiftSpace(each, 0, -step * unitsPerVu));
    if (!areFree(moved, solid, unitsPerVu)) return best;
    best = moved;
  }
  return best;
};

const areFree = (line: readonly PlacedSpace[], solid: readonly Box[], unitsPerVu: number): boolean => {
  const inks = line.map((each) => inksOf(each, unitsPerVu));
  return (
    areApart(inks, unitsPerVu) &&
    inks.flat().every((ink) => {
      const wanted = { ...ink, y0: ink.y0 - CLEARANCE_VU * unitsPerVu };
      return !solid.some((box) => boxesMeet(box, wanted));
    })
  );
};

/** @param inks of each drawing */
const areApart = (inks: readonly (readonly Box[])[], unitsPerVu: number): boolean => {
  const beside = APART_VU.markings * unitsPerVu;
  return inks.every((own, i) =>
    own.every((ink) => {
      const wide = widenBox(ink, beside);
      return inks.every((others, j) => j <= i || !others.some((other) => boxesMeet(wide, other)));
    }),
  );
};
