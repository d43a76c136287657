import type { Box } from '../../text/outline.ts';
import { kindOf } from '../drawn-groups.ts';
import { type DrawnPage, groupsOfKinds, inkOf } from './drawn-page.ts';
import { joinBoxes, type Margins, toTheRight, upAndDown } from './free-place.ts';
import { type Movable, NO_SHIFT } from './movable.ts';

const CLEF = 'clef';
const REST = 'rest';
export const RESTS_AND_CLEFS: ReadonlySet<string> = new Set([CLEF, REST]);

/** Rests stand in the spaces of the staff: a step is one of them, in vu. */
const SPACE_VU = 2;
const FARTHEST_REST_VU = 10;
const FARTHEST_CLEF_VU = 6;
const MARGINS: Margins = { besideVu: 0, aboveVu: 0 };

/**
 * Rests of one voice that lie on the notes of another go up or down, and clefs that lie on the notes before them to the right,
 * as far as the next notes: the layout sets each by its own voice alone.
 */
export const findRestsAndClefs = (page: DrawnPage, notes: readonly Box[]): Movable[] =>
  groupsOfKinds(page, RESTS_AND_CLEFS).flatMap((group) => {
    const boxes = inkOf(page, group);
    if (boxes.length === 0) return [];
    return [
      {
        groups: [{ group, shift: NO_SHIFT }],
        boxes,
        ways:
          kindOf(group) === REST
            ? upAndDown([1, -1], FARTHEST_REST_VU, SPACE_VU)
            : toTheRight(Math.min(FARTHEST_CLEF_VU, spaceBehind(boxes, notes) / page.unitsPerVu)),
        margins: MARGINS,
        clearOf: 'notes',
        otherwise: 'stay',
      },
    ];
  });

/** How far it is from a clef to the next notes of its staff, or the bar line. */
const spaceBehind = (clef: readonly Box[], notes: readonly Box[]): number => {
  const own = joinBoxes(clef);
  const behind = notes.filter(({ x0, y0, y1 }) => x0 >= own.x1 && y0 < own.y1 && own.y0 < y1);
  return Math.min(...behind.map(({ x0 }) => x0 - own.x1));
};
