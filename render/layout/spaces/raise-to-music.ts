import { group } from 'd3-array';
import type { MarkingPlacement } from '../../engraving-options.ts';
import { moveBox } from '../../geometry/drawn-groups.ts';
import type { Obstacle } from '../../geometry/obstacles.ts';
import { boxesMeet } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import { APART_VU } from './overlaps.ts';
import { inkOf, type PlacedSpace } from './placed-space.ts';
import { levelOf, sideOf, standsBetween } from './reserve-spaces.ts';

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
  const others = placed.filter(({ room }) => !own.has(room.id)).map(({ box }) => inkOf(box, unitsPerVu));
  const solid = [...others, ...obstacles.map(({ box }) => box)];
  const asLaid = line.map(({ box }) => box);
  const level = alignHeads(line, unitsPerVu);
  const most = bottomOf(asLaid) + MOST_LOWER_VU * unitsPerVu;
  const raised = [level, asLaid]
    .filter((boxes) => areFree(boxes, solid, unitsPerVu))
    .map((boxes) => bringUp(boxes, solid, unitsPerVu))
    .find((boxes) => bottomOf(boxes) <= most);
  if (raised === undefined) return placed;
  const boxOf = new Map(line.map(({ room }, i) => [room.id, raised[i]!]));
  return placed.map((each) => ({ ...each, box: boxOf.get(each.room.id) ?? each.box }));
};

/** One level is worth so much more height. */
const MOST_LOWER_VU = 2;

const bottomOf = (boxes: readonly Box[]): number => Math.max(...boxes.map(({ y1 }) => y1));

/** The boxes of a line with the lower edges of their heads on the lowest level of these. */
const alignHeads = (line: readonly PlacedSpace[], unitsPerVu: number): readonly Box[] => {
  const level = Math.max(...line.map((each) => each.box.y0 + headOf(each, unitsPerVu)));
  return line.map((each) => moveBox(each.box, { x: 0, y: level - each.box.y0 - headOf(each, unitsPerVu) }));
};

/** Boxes as far up together as all of them are free. */
const bringUp = (boxes: readonly Box[], solid: readonly Box[], unitsPerVu: number): readonly Box[] => {
  let best = boxes;
  for (let step = STEP_VU; step <= FARTHEST_VU; step += STEP_VU) {
    const moved = boxes.map((box) => moveBox(box, { x: 0, y: -step * unitsPerVu }));
    if (!areFree(moved, solid, unitsPerVu)) return best;
    best = moved;
  }
  return best;
};

const areFree = (boxes: readonly Box[], solid: readonly Box[], unitsPerVu: number): boolean => {
  const inks = boxes.map((box) => inkOf(box, unitsPerVu));
  return (
    areApart(inks, unitsPerVu) &&
    inks.every((ink) => {
      const wanted = { ...ink, y0: ink.y0 - CLEARANCE_VU * unitsPerVu };
      return !solid.some((box) => boxesMeet(box, wanted));
    })
  );
};

/** The height of what words stand under, or of all that has none, in the page's units. */
const headOf = ({ room: { headVu }, box }: PlacedSpace, unitsPerVu: number): number =>
  headVu === undefined ? box.y1 - box.y0 : headVu * unitsPerVu;

const areApart = (inks: readonly Box[], unitsPerVu: number): boolean =>
  inks.every((ink, i) => {
    const wide = { ...ink, x0: ink.x0 - APART_VU * unitsPerVu, x1: ink.x1 + APART_VU * unitsPerVu };
    return inks.every((other, j) => j <= i || !boxesMeet(wide, other));
  });
