import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import type { Box } from '../../text/outline.ts';
import { kindOf } from '../drawn-groups.ts';
import { type DrawnPage, groupsOfKinds, inkOf } from './drawn-page.ts';
import { joinBoxes, type Margins, toTheRight, upAndDown } from './free-place.ts';
import { type Movable, NO_SHIFT } from './movable.ts';

const CLEF = 'clef';
const REST = 'rest';
const LAYER = 'layer';
const NOTE = 'note';
export const RESTS_AND_CLEFS: ReadonlySet<string> = new Set([CLEF, REST]);

/** Rests stand in the spaces of the staff: a step is one of them, in vu. */
const SPACE_VU = 2;
const FARTHEST_REST_VU = 10;
const FARTHEST_CLEF_VU = 10;
const AROUND_CLEF: Margins = { besideVu: 0, aboveVu: 0 };
/** A rest beside the stem of another voice reads as part of it. */
const AROUND_REST: Margins = { besideVu: 0.3, aboveVu: 0 };

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
            : toTheRight(
                Math.min(FARTHEST_CLEF_VU, spaceBehind(page, group, boxes, notes) / page.unitsPerVu),
              ),
        margins: kindOf(group) === REST ? AROUND_REST : AROUND_CLEF,
        clearOf: 'notes',
        otherwise: 'stay',
      },
    ];
  });

/**
 * How far it is from a clef to the next notes of its staff, or the bar line. Notes before it in its own layer are not behind it,
 * wherever the layout has set it.
 */
const spaceBehind = (
  page: DrawnPage,
  clef: XmlElement,
  boxes: readonly Box[],
  notes: readonly Box[],
): number => {
  const own = joinBoxes(boxes);
  const before = notesBefore(page, clef).flatMap((note) => inkOf(page, note));
  const behind = notes.filter(
    (note) =>
      note.x0 >= own.x1 &&
      note.y0 < own.y1 &&
      own.y0 < note.y1 &&
      !before.some((each) => each.x0 === note.x0 && each.y0 === note.y0),
  );
  return Math.min(...behind.map(({ x0 }) => x0 - own.x1));
};

const notesBefore = ({ root }: DrawnPage, { span }: XmlElement): XmlElement[] =>
  descendantsNamed(root, 'g')
    .filter((group) => kindOf(group) === LAYER && group.span.start < span.start && span.end <= group.span.end)
    .flatMap((layer) => descendantsNamed(layer, 'g'))
    .filter((group) => kindOf(group) === NOTE && group.span.end <= span.start);
