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
 * The lines of markings with words under them that may come up: the layout sets all of a line on the level of the lowest,
 * and goes lower still where two of them have no room beside each other before they are parted.
 */
export const linesToRaise = (
  placed: readonly PlacedSpace[],
  placement: MarkingPlacement,
): readonly (readonly PlacedSpace[])[] => {
  const outer = placed.filter(
    ({ room }) =>
      room.line === 'markings' &&
      sideOf('markings', placement) === 'below' &&
      !standsBetween(room, placement),
  );
  return [...group(outer, ({ room }) => levelOf(room)).values()].filter((line) =>
    line.some(({ room }) => room.headVu !== undefined),
  );
};

/**
 * Sets what the words of a line stand under on one level, as letters without words stand, where that takes little height,
 * and brings all of the line up as far as they are free.
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
  const most = bottomOf(line) + MOST_LOWER_VU * unitsPerVu;
  const raised = [alignHeads(line, unitsPerVu), line]
    .filter((each) => areFree(each, solid, unitsPerVu))
    .map((each) => bringUp(each, solid, unitsPerVu))
    .find((each) => bottomOf(each) <= most);
  if (raised === undefined) return placed;
  const boxOf = new Map(raised.map(({ room, box }) => [room.id, box]));
  return placed.map((each) => ({ ...each, box: boxOf.get(each.room.id) ?? each.box }));
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
