import type { Box } from '../../text/outline.ts';
import { type InkedGroups, moveBox } from '../drawn-groups.ts';
import { type DrawnPage, groupsOfKinds, inkOf } from './drawn-page.ts';
import { freeWay, type Ways } from './free-place.ts';

export const CHORD_SYMBOL = 'harm';

/** The chord symbols over a system, which keep one level: the layout sets them outside all that we reserve. */
export const findChordSymbols = (page: DrawnPage): InkedGroups | null => {
  const found = groupsOfKinds(page, new Set([CHORD_SYMBOL]))
    .map((group) => ({ group, boxes: inkOf(page, group) }))
    .filter(({ boxes }) => boxes.length > 0 && boxes.every(({ y1 }) => y1 < page.staffTop));
  if (found.length === 0) return null;
  return { groups: found.map(({ group }) => group), boxes: found.flatMap(({ boxes }) => boxes) };
};

/** From chord symbols to the staff, in vu; less than the second is not worth a move. */
const OVER_STAFF_VU = 2;
const LEAST_DROP_VU = 3;
const STEP_VU = 0.5;
const MARGINS = { besideVu: 0.8, aboveVu: 0.3 };

/** How far all of them together come down to the staff. */
export const dropDepth = (
  boxes: readonly Box[],
  settled: readonly Box[],
  { staffTop, unitsPerVu }: DrawnPage,
): number => {
  const most = staffTop - OVER_STAFF_VU * unitsPerVu - Math.max(...boxes.map(({ y1 }) => y1));
  const stays: Ways = [{ x: 0, y: 0 }];
  let down: number | null = null;
  for (let next = 0; next <= most; next += STEP_VU * unitsPerVu) {
    const there = boxes.map((box) => moveBox(box, { x: 0, y: next }));
    const isFree = freeWay(there, stays, settled, MARGINS, unitsPerVu) !== null;
    if (isFree) down = next;
    // The layout sets them on the number of an ending: that is passed. Past what they come down to they do not go.
    else if (down !== null) break;
  }
  return down === null || down < LEAST_DROP_VU * unitsPerVu ? 0 : down;
};
