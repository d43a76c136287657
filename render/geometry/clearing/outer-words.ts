import { kindOf, moveBox } from '../drawn-groups.ts';
import { type DrawnPage, groupsOfKinds, inkOf, isOver } from './drawn-page.ts';
import { joinBoxes, type Margins, upAndDown } from './free-place.ts';
import { WORDS } from './inner-words.ts';
import { type Movable, NO_SHIFT } from './movable.ts';

export const NUMBER = 'mNum';

const UPWARDS = upAndDown([-1], 40);
/** Of words not all letters fill their line. */
const AROUND_WORDS: Margins = { besideVu: 0.8, aboveVu: 1.2 };
const AROUND_NUMBER: Margins = { besideVu: 0.8, aboveVu: 0.3 };

/** Words and the numbers of bars over a system, the lowest first, words before numbers: these give way to all others. */
export const findOuterWords = (page: DrawnPage): Movable[] => {
  const over = groupsOfKinds(page, new Set([...WORDS, NUMBER])).flatMap((group) => {
    const shift = page.overhangs.get(group.span.start) ?? NO_SHIFT;
    const boxes = inkOf(page, group).map((box) => moveBox(box, { x: shift.dx, y: shift.dy }));
    return boxes.length > 0 && isOver(boxes, page) ? [{ group, shift, boxes }] : [];
  });
  const isNumber = ({ group }: (typeof over)[number]): number => (kindOf(group) === NUMBER ? 1 : 0);
  return [...over]
    .sort((a, b) => isNumber(a) - isNumber(b) || joinBoxes(b.boxes).y1 - joinBoxes(a.boxes).y1)
    .map(({ boxes, group, shift }) => ({
      groups: [{ group, shift }],
      boxes,
      ways: UPWARDS,
      margins: kindOf(group) === NUMBER ? AROUND_NUMBER : AROUND_WORDS,
      clearOf: 'ink',
      otherwise: 'stay',
    }));
};
