import { type DrawnPage, groupsOfKinds, inkOf, isUnder } from './drawn-page.ts';
import { type Margins, upAndDown } from './free-place.ts';
import { type Movable, NO_SHIFT } from './movable.ts';

export const HAIRPIN = 'hairpin';

const INSIDE = upAndDown([1, -1], 9);
const UNDER_SYSTEM = upAndDown([1, -1], 40);
const MARGINS: Margins = { besideVu: 0.8, aboveVu: 0.3 };

/** Hairpins go up or down. */
export const findHairpins = (page: DrawnPage): Movable[] =>
  groupsOfKinds(page, new Set([HAIRPIN])).flatMap((group) => {
    const boxes = inkOf(page, group);
    return boxes.length === 0
      ? []
      : [
          {
            groups: [{ group, shift: NO_SHIFT }],
            boxes,
            ways: isUnder(boxes, page) ? UNDER_SYSTEM : INSIDE,
            margins: MARGINS,
            clearOf: 'ink-and-staves',
            otherwise: 'touch-least',
          },
        ];
  });
