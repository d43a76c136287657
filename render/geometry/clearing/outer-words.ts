import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import type { Box } from '../../text/outline.ts';
import { kindOf, moveBox } from '../drawn-groups.ts';
import { boxesMeet } from '../outline-boxes.ts';
import { dropDepth } from './chord-symbols.ts';
import { type DrawnPage, groupsOfKinds, inkOf, isOver } from './drawn-page.ts';
import { freeWay, joinBoxes, type Margins, upAndDown, type Ways, widen } from './free-place.ts';
import { WORDS } from './inner-words.ts';
import { type Movable, NO_SHIFT } from './movable.ts';

export const NUMBER = 'mNum';
const TEMPO = 'tempo';
const REHEARSAL = 'reh';
/** Words without a frame. */
const PHRASES: ReadonlySet<string> = new Set([...WORDS].filter((kind) => kind !== REHEARSAL));

const UPWARDS = upAndDown([-1], 40);
/** Of words not all letters fill their line. */
const AROUND_WORDS: Margins = { besideVu: 0.8, aboveVu: 1.2 };
const AROUND_NUMBER: Margins = { besideVu: 0.8, aboveVu: 0.3 };
/** Words beside the number of a rest of many bars would be read as one with it: they stand over it, in all of its bar. */
const REST_NUMBER: ReadonlySet<string> = new Set(['multiRestNum']);
const BESIDE_REST_NUMBER: Margins = { besideVu: 12, aboveVu: 0 };

/** Tempo words go up so far, in vu, to stand at one height with others of their line. */
const FARTHEST_LEVEL_VU = 8;

/** What stands over a system beside the counts. */
export const OVER_SYSTEM: ReadonlySet<string> = new Set([...WORDS, NUMBER]);

/**
 * Words and the numbers of bars over a system, the lowest first, words before numbers: these give way to all others. Words of
 * tempo stand at one height where they are not far from it. Where there are counts, numbers stand over their line, and words
 * over them.
 *
 * @param settled ink that is not moved
 * @param reserved boxes of the counts among it, and of what is told before the first note, which is placed later
 */
export const findOuterWords = (
  page: DrawnPage,
  settled: readonly Box[],
  { counts, starts }: { readonly counts: readonly Box[]; readonly starts: readonly Box[] },
): Movable[] => {
  const over = groupsOfKinds(page, OVER_SYSTEM).flatMap((group) => {
    const shift = page.overhangs.get(group.span.start) ?? NO_SHIFT;
    const boxes = inkOf(page, group).map((box) => moveBox(box, { x: shift.dx, y: shift.dy }));
    return boxes.length > 0 && isOver(boxes, page) ? [{ group, shift, boxes }] : [];
  });
  const first = counts.length > 0 ? -1 : 1;
  const isNumber = ({ group }: (typeof over)[number]): number => (kindOf(group) === NUMBER ? first : 0);
  const waysOf = ({ group, boxes }: (typeof over)[number]): Ways => {
    if (kindOf(group) === NUMBER) return waysOfNumber(group, counts, page);
    if (kindOf(group) !== REHEARSAL || !areNear(boxes, starts, page)) return UPWARDS;
    const others = over.filter((each) => each.group !== group).flatMap((each) => each.boxes);
    return [...waysDown(dropDepth(boxes, [...settled, ...others], page) / page.unitsPerVu), ...UPWARDS];
  };
  const restNumbers = groupsOfKinds(page, REST_NUMBER)
    .flatMap((group) => inkOf(page, group))
    .map((box) => widen(box, BESIDE_REST_NUMBER, page.unitsPerVu));
  const words = [...over]
    .sort((a, b) => isNumber(a) - isNumber(b) || joinBoxes(b.boxes).y1 - joinBoxes(a.boxes).y1)
    .map(
      (each): Movable => ({
        groups: [{ group: each.group, shift: each.shift }],
        boxes: each.boxes,
        ways: waysOf(each),
        margins: kindOf(each.group) === NUMBER ? AROUND_NUMBER : AROUND_WORDS,
        clearOf: 'ink',
        otherwise: 'stay',
        ...(PHRASES.has(kindOf(each.group)) ? { rather: { boxes: restNumbers, ways: waysOf(each) } } : {}),
      }),
    );
  return levelled(words, settled, page.unitsPerVu);
};

/**
 * So near to a table of levers, in vu, a rehearsal mark goes down past it: at its corner or over it the mark would seem to be
 * the table's, and the table would go up past the mark.
 */
const NEAR_START_VU = 4;

/** As far down as there is room, or a little less for more white. */
const waysDown = (farthestVu: number): Ways => upAndDown([1], farthestVu).toReversed();

const areNear = (
  boxes: readonly Box[],
  starts: readonly Box[],
  { unitsPerVu }: Pick<DrawnPage, 'unitsPerVu'>,
): boolean => {
  const around = { besideVu: NEAR_START_VU, aboveVu: NEAR_START_VU };
  return starts.some((start) => {
    const near = widen(start, around, unitsPerVu);
    return boxes.some((box) => boxesMeet(near, box));
  });
};

/** Numbers stand so far, in vu, over the line of the counts, and go so far to stand there. */
const OVER_COUNTS_VU = 0.6;
const FARTHEST_NUMBER_VU = 16;

const waysOfNumber = (
  number: XmlElement,
  counts: readonly Box[],
  { origin, unitsPerVu }: Pick<DrawnPage, 'origin' | 'unitsPerVu'>,
): Ways => {
  const baseline = baselineOf(number);
  if (counts.length === 0 || baseline === null) return UPWARDS;
  // Figures end at their baseline; beside a count they would be read as one with it.
  const y = (joinBoxes(counts).y0 - baseline - origin.y) / unitsPerVu - OVER_COUNTS_VU;
  return Math.abs(y) > FARTHEST_NUMBER_VU ? UPWARDS : [{ x: 0, y }, ...UPWARDS];
};

/** Words of tempo go first of all to the height of the highest near them, and stay there where nothing is in their way. */
const levelled = (words: readonly Movable[], settled: readonly Box[], unitsPerVu: number): Movable[] => {
  const lines = freeLines(words, settled, unitsPerVu).sort((a, b) => a.at - b.at);
  const ways = new Map<Movable, Ways>();
  let level = Number.NEGATIVE_INFINITY;
  for (const { at, baseline, words: own } of lines) {
    if (at - level > FARTHEST_LEVEL_VU * unitsPerVu) level = at;
    else ways.set(own, [{ x: 0, y: (level - baseline) / unitsPerVu }, ...own.ways]);
  }
  return words.map((each) => {
    const own = ways.get(each) ?? each.ways;
    return { ...each, ways: own, ...(each.rather && { rather: { ...each.rather, ways: own } }) };
  });
};

/** A line of tempo words: where the layout set it, and where it goes for itself, in the page's units. */
interface TempoLine {
  readonly words: Movable;
  readonly baseline: number;
  readonly at: number;
}

/** Tempo words, but for those that stand over others, by which they have their height. */
const freeLines = (words: readonly Movable[], settled: readonly Box[], unitsPerVu: number): TempoLine[] => {
  const taken = [...settled];
  return words.flatMap((each) => {
    const wayPast = (others: readonly Box[]): number =>
      freeWay(each.boxes, each.ways, [...others, ...(each.rather?.boxes ?? [])], each.margins, unitsPerVu)
        ?.y ?? 0;
    const up = wayPast(taken);
    const isStacked = up < wayPast(settled);
    taken.push(...each.boxes.map((box) => moveBox(box, { x: 0, y: up })));
    const { group } = each.groups[0]!;
    const baseline = kindOf(group) === TEMPO ? baselineOf(group) : null;
    return baseline === null || isStacked ? [] : [{ words: each, baseline, at: baseline + up }];
  });
};

/** Where the letters of words stand; null of several lines. */
const baselineOf = (group: XmlElement): number | null => {
  const heights = descendantsNamed(group, 'text', 'tspan').flatMap(({ attributes: { y } }) =>
    y === undefined ? [] : [Number(y)],
  );
  return new Set(heights).size === 1 ? heights[0]! : null;
};
