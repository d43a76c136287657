import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import type { Box } from '../../text/outline.ts';
import { kindOf, moveBox } from '../drawn-groups.ts';
import type { Shift } from '../moved-groups.ts';
import { boxesMeet } from '../outline-boxes.ts';
import { type DrawnPage, groupsOfKinds, inkOf, isOver, isUnder } from './drawn-page.ts';
import { aroundIt, joinBoxes, type Margins, type Ways } from './free-place.ts';
import { type Movable, NO_SHIFT, type PlacedGroup } from './movable.ts';

/** What the layout calls words, and dynamics. */
export const WORDS: ReadonlySet<string> = new Set(['tempo', 'dir', 'reh']);
export const DYNAMIC = 'dynam';
const TEXTS: ReadonlySet<string> = new Set([...WORDS, DYNAMIC]);

/** A dynamic in the letters of the music font, and not in words such as “dim.”. */
const isMusic = (group: XmlElement): boolean => {
  const stretches = kindOf(group) === DYNAMIC ? descendantsNamed(group, 'tspan') : [];
  const ofFont = ({ attributes }: XmlElement): boolean =>
    (attributes['font-family'] ?? '').includes('Bravura');
  return kindOf(group) === DYNAMIC && (stretches.length === 0 || stretches.some(ofFont));
};

/** Words and dynamics that stand together, such as “p dolce”. */
interface Phrase {
  readonly groups: readonly PlacedGroup[];
  readonly boxes: readonly Box[];
}

interface Text {
  readonly group: XmlElement;
  readonly shift: Shift;
  readonly boxes: readonly Box[];
}

const MARGINS: Margins = { besideVu: 0.8, aboveVu: 0.5 };
/** Between staves there is no room to go far; under the system the page gives each line its height. */
const FARTHEST_INSIDE = { x: 8, y: 9 };
const FARTHEST_UNDER_VU = 40;

/**
 * Words and dynamics between the staves and under them, and dynamics over them: what the layout sets beside what belongs to
 * their moment, without a look at all that is there.
 *
 * @param settled ink that is not moved
 * @param barLines which run through between the staves: words that can stand in their bar do not lie on one
 */
export const findInnerWords = (
  page: DrawnPage,
  settled: readonly Box[],
  barLines: readonly Box[],
): Movable[] => {
  const texts = groupsOfKinds(page, TEXTS)
    .map((group): Text => {
      const shift = page.overhangs.get(group.span.start) ?? NO_SHIFT;
      return {
        group,
        shift,
        boxes: inkOf(page, group).map((box) => moveBox(box, { x: shift.dx, y: shift.dy })),
      };
    })
    .filter(({ boxes, group }) => boxes.length > 0 && (isMusic(group) || !isOver(boxes, page)));
  return joinPhrases(pastDynamics(texts, settled, page.unitsPerVu), page.unitsPerVu).map(
    ({ boxes, groups }) => ({
      groups,
      boxes,
      ways: isUnder(boxes, page) ? UNDER_SYSTEM : INSIDE,
      margins: MARGINS,
      clearOf: 'ink-and-staves',
      rather: { boxes: barLines, ways: isUnder(boxes, page) ? UNDER_SYSTEM : WITHIN_BAR },
      otherwise: 'touch-least',
    }),
  );
};

const INSIDE: Ways = aroundIt(FARTHEST_INSIDE);
/** Words that were far to the right would stand in the next bar. */
const WITHIN_BAR: Ways = INSIDE.filter(({ x }) => x <= 2);
const UNDER_SYSTEM: Ways = aroundIt({ x: 0, y: FARTHEST_UNDER_VU });

/** Between a dynamic and the words after it, in vu. */
const AFTER_DYNAMIC_VU = 1.2;

/** Words that the layout sets on a dynamic of the same moment go behind it: “p dim.”; they stay where they would touch as much there. */
const pastDynamics = (
  texts: readonly Text[],
  settled: readonly Box[],
  unitsPerVu: number,
): readonly Text[] => {
  const dynamics = texts.filter(({ group }) => isMusic(group)).flatMap(({ boxes }) => boxes);
  return texts.map((text) => {
    const { boxes, group, shift } = text;
    const met = isMusic(group)
      ? []
      : dynamics.filter((dynamic) => boxes.some((box) => boxesMeet(box, dynamic)));
    if (met.length === 0) return text;
    const past = Math.max(...met.map(({ x1 }) => x1)) + AFTER_DYNAMIC_VU * unitsPerVu;
    const by = past - joinBoxes(boxes).x0;
    const there = boxes.map((box) => moveBox(box, { x: by, y: 0 }));
    const touched = (own: readonly Box[]): number =>
      [...settled, ...dynamics].filter((other) => own.some((box) => boxesMeet(box, other))).length;
    if (touched(there) >= touched(boxes)) return text;
    return { group, shift: { dx: shift.dx + by, dy: shift.dy }, boxes: there };
  });
};

/** What stands so near, in vu, is read as one. */
const NEAR = { beside: 3, above: 1 };

/** Whether all of the boxes are among the others. */
const areSame = (own: readonly Box[], others: readonly Box[]): boolean =>
  own.every(({ x0, x1, y0, y1 }) =>
    others.some((other) => other.x0 === x0 && other.x1 === x1 && other.y0 === y0 && other.y1 === y1),
  );

const joinPhrases = (texts: readonly Text[], unitsPerVu: number): readonly Phrase[] => {
  const phrases: { groups: PlacedGroup[]; boxes: Box[] }[] = [];
  const [beside, above] = [NEAR.beside * unitsPerVu, NEAR.above * unitsPerVu];
  for (const { boxes, group, shift } of texts) {
    const around = boxes.map(({ x0, x1, y0, y1 }) => ({
      ...{ x0: x0 - beside, x1: x1 + beside, y0: y0 - above, y1: y1 + above },
    }));
    const meets = (own: readonly Box[], others: readonly Box[]): boolean =>
      own.some((box) => others.some((other) => boxesMeet(box, other)));
    // What lies on one another must part, unless a file has the same twice.
    const host = phrases.find(
      (each) => areSame(boxes, each.boxes) || (meets(around, each.boxes) && !meets(boxes, each.boxes)),
    );
    if (host === undefined) phrases.push({ groups: [{ group, shift }], boxes: [...boxes] });
    else {
      host.groups.push({ group, shift });
      host.boxes.push(...boxes);
    }
  }
  return phrases;
};
