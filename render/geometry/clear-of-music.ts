import { descendantsNamed, type XmlElement } from '../../engine/index.ts';
import type { Box } from '../text/outline.ts';
import { EVERYTHING, type InkedGroups, inkOfGroups, kindOf, moveBox } from './drawn-groups.ts';
import type { MovedGroups, Shift } from './moved-groups.ts';
import { findObstacles } from './obstacles.ts';
import { boxesMeet, type Point } from './outline-boxes.ts';
import { readSystems } from './page-systems.ts';
import { DYNAMIC, isInWords, shiftPastDynamic, WORDS, wordsThatStay } from './staying-words.ts';
import { readTransform } from './transform.ts';
import { type Nearer, nearerToBeam } from './tuplet-figures.ts';

/*
 * What the layout sets without a look at everything that is there, in the order in which it is settled: chord symbols, the figures of
 * tuplets with their brackets, hairpins, words over a system, and bar numbers, which give way to all others.
 */
const TUPLET_SIGNS = ['tupletNum', 'tupletBracket'] as const;
const HAIRPIN = 'hairpin';
const CHORD_SYMBOL = 'harm';
const NUMBER = 'mNum';

/** Clear of ink to their sides and above and below, in vu. */
const BESIDE_VU = 0.8;
const ABOVE_VU = 0.3;
/** The same of words, whose letters do not all fill their line. */
const ABOVE_WORDS_VU = 0.8;
const STEP_VU = 0.5;
/** How far each may go from where it was: inside a system there is no room to go far. */
const FARTHEST_INSIDE_VU = 7;
const FARTHEST_ABOVE_VU = 40;

/** Groups that move as one, and the ways they may. */
interface Movable {
  readonly groups: readonly XmlElement[];
  /** Where the layout, and what runs over the margin, leaves them. */
  readonly boxes: readonly Box[];
  readonly shift: Shift;
  /** Up is -1. */
  readonly directions: readonly (-1 | 1)[];
  readonly farthestVu: number;
  readonly aboveVu: number;
  /** How far down it would be nearer to what it belongs to; null where it is near. */
  readonly nearer: Nearer | null;
  readonly turn: number;
}

export interface ClearingRequest {
  readonly overhangs: MovedGroups;
  /** Ids of groups that are passed over: they are placed later. */
  readonly passed: ReadonlySet<string>;
  /** The top line of the first staff. */
  readonly staffTop: number;
  readonly unitsPerVu: number;
}

export interface ClearedGroups {
  readonly moved: MovedGroups;
  /** Where the highest of those that were moved ends; infinity where none was. */
  readonly top: number;
  /** Where the lowest of them ends. */
  readonly bottom: number;
}

/**
 * Moves words, bar numbers, figures of tuplets and hairpins off whatever they touch: notes, beams, slurs, one another. Each
 * goes as little as it must, and stays where it was if nothing is free.
 */
export const clearOfMusic = (
  svg: string,
  root: XmlElement,
  { overhangs, passed, staffTop, unitsPerVu }: ClearingRequest,
): ClearedGroups => {
  const found = findObstacles(svg, root, {
    ...EVERYTHING,
    skipped: passed,
    passable: new Set([...TUPLET_SIGNS, HAIRPIN, CHORD_SYMBOL, ...WORDS, NUMBER, DYNAMIC]),
  }).filter(({ kind }) => !STAFF_LINES.has(kind));
  const settled = found.map(({ box }) => box);
  const dynamics = inkOfGroups(svg, root, (group) => kindOf(group) === DYNAMIC && !isInWords(group));
  settled.push(...dynamics.flatMap(({ boxes }) => boxes));
  const moved = new Map(overhangs);
  const chords = findChordSymbols(svg, root, { passed, staffTop, unitsPerVu });
  if (chords !== null) {
    const down = dropDepth(chords.boxes, settled, staffTop, unitsPerVu);
    settled.push(...chords.boxes.map((box) => lower(box, down)));
    for (const group of chords.groups) moved.set(group.span.start, { dx: 0, dy: down });
  }
  const movable = findMovable(svg, root, overhangs, staffTop, unitsPerVu);
  const leaving = new Set(movable.flatMap(({ groups }) => groups.map(({ span }) => span.start)));
  for (const { boxes, groups } of wordsThatStay(svg, root, leaving, passed)) {
    const dx = shiftPastDynamic(
      boxes,
      dynamics.flatMap((each) => each.boxes),
      settled,
      unitsPerVu,
    );
    for (const group of groups) if (dx > 0) moved.set(group.span.start, { dx, dy: 0 });
    settled.push(...boxes.map((box) => moveBox(box, { x: dx, y: 0 })));
  }
  let top = Number.POSITIVE_INFINITY;
  let bottom = Number.NEGATIVE_INFINITY;
  for (const each of movable) {
    const down = nearerShift(each, settled, unitsPerVu) ?? freeShift(each, settled, unitsPerVu);
    const own = each.boxes.map((box) => lower(box, down));
    settled.push(...own);
    if (down === 0) continue;
    for (const group of each.groups)
      moved.set(group.span.start, { dx: each.shift.dx, dy: each.shift.dy + down });
    top = Math.min(top, ...own.map(({ y0 }) => y0));
    bottom = Math.max(bottom, bottomOf(own));
  }
  return { moved, top, bottom };
};

/** From chord symbols to the staff, in vu; less than the second is not worth a move. */
const OVER_STAFF_VU = 2;
const LEAST_DROP_VU = 3;

/** The chord symbols over a system, which keep one level: the layout sets them outside all that we reserve. */
const findChordSymbols = (
  svg: string,
  root: XmlElement,
  { passed, staffTop }: Omit<ClearingRequest, 'overhangs'>,
): InkedGroups | null => {
  const { origin } = readSystems(root);
  const found = descendantsNamed(root, 'g')
    .filter((group) => kindOf(group) === CHORD_SYMBOL && !passed.has(group.attributes.id ?? ''))
    .map((group) => ({
      group,
      boxes: findObstacles(svg, group, EVERYTHING).map(({ box }) => moveBox(box, origin)),
    }))
    .filter(({ boxes }) => boxes.length > 0 && boxes.every(({ y1 }) => y1 < staffTop));
  if (found.length === 0) return null;
  return { groups: found.map(({ group }) => group), boxes: found.flatMap(({ boxes }) => boxes) };
};

/** How far all of them together come down to the staff. */
const dropDepth = (
  boxes: readonly Box[],
  settled: readonly Box[],
  staffTop: number,
  unitsPerVu: number,
): number => {
  const most = staffTop - OVER_STAFF_VU * unitsPerVu - bottomOf(boxes);
  const wide = boxes.map((box) => widen(box, unitsPerVu));
  let down = 0;
  for (let next = 0; next <= most; next += STEP_VU * unitsPerVu) {
    if (wide.some((box) => settled.some((other) => boxesMeet(lower(box, next), other)))) break;
    down = next;
  }
  return down < LEAST_DROP_VU * unitsPerVu ? 0 : down;
};

/** What runs through the whole system, and the words of a song, which have their own line. */
const STAFF_LINES: ReadonlySet<string> = new Set(['staff', 'barLine', 'ledgerLines']);

/** How far down something has to go, up being below 0; 0 where nothing is free as far as it may go. */
const freeShift = (
  { boxes, directions, farthestVu, aboveVu }: Movable,
  settled: readonly Box[],
  unitsPerVu: number,
): number => {
  const isFree = freedom(
    boxes.map((box) => widen(box, unitsPerVu, aboveVu)),
    settled,
  );
  for (let step = 0; step <= farthestVu; step += STEP_VU) {
    for (const direction of directions) {
      const down = direction * step * unitsPerVu;
      if (isFree(down)) return down;
    }
  }
  return 0;
};

/** From where it would be nearer it may be moved away again so far. */
const STILL_NEAR_VU = 4;

const nearerShift = (
  { boxes, nearer }: Movable,
  settled: readonly Box[],
  unitsPerVu: number,
): number | null => {
  if (nearer === null) return null;
  const isFree = freedom(
    boxes.map((box) => widen(box, unitsPerVu)),
    settled,
  );
  for (let step = 0; step <= STILL_NEAR_VU; step += STEP_VU) {
    const down = nearer.down + nearer.direction * step * unitsPerVu;
    if (isFree(down)) return down;
  }
  return null;
};

/** Says whether boxes that are moved down touch nothing. */
const freedom = (wide: readonly Box[], settled: readonly Box[]): ((down: number) => boolean) => {
  const x0 = Math.min(...wide.map((box) => box.x0));
  const x1 = Math.max(...wide.map((box) => box.x1));
  const near = settled.filter((box) => box.x0 < x1 && x0 < box.x1);
  return (down) => wide.every((box) => near.every((other) => !boxesMeet(lower(box, down), other)));
};

const widen = ({ x0, y0, x1, y1 }: Box, unitsPerVu: number, aboveVu = ABOVE_VU): Box => ({
  x0: x0 - BESIDE_VU * unitsPerVu,
  y0: y0 - aboveVu * unitsPerVu,
  x1: x1 + BESIDE_VU * unitsPerVu,
  y1: y1 + aboveVu * unitsPerVu,
});

const lower = ({ x0, y0, x1, y1 }: Box, down: number): Box => ({ x0, y0: y0 + down, x1, y1: y1 + down });

const NO_SHIFT: Shift = { dx: 0, dy: 0 };

/** What may be moved, in the order in which it is settled. */
const findMovable = (
  svg: string,
  root: XmlElement,
  overhangs: MovedGroups,
  staffTop: number,
  unitsPerVu: number,
): Movable[] => {
  const found: Movable[] = [];
  const visit = (element: XmlElement, origin: Point, beam: XmlElement | null): void => {
    const kind = kindOf(element);
    const inkOf = (group: XmlElement): Box[] =>
      findObstacles(svg, group, EVERYTHING).map(({ box }) => moveBox(box, origin));
    const inside = { shift: NO_SHIFT, farthestVu: FARTHEST_INSIDE_VU, aboveVu: ABOVE_VU, nearer: null };
    if (kind === 'tuplet') {
      const groups = element.children.filter((each) =>
        (TUPLET_SIGNS as readonly string[]).includes(kindOf(each)),
      );
      const boxes = groups.flatMap(inkOf);
      const heads = descendantsNamed(element, 'g')
        .filter((each) => kindOf(each) === 'notehead')
        .flatMap(inkOf);
      if (boxes.length > 0 && heads.length > 0)
        found.push({
          ...inside,
          groups,
          boxes,
          directions: middleOf(boxes) < middleOf(heads) ? [-1] : [1],
          nearer: isBracketed(groups)
            ? null
            : nearerToBeam(beamOver(element, beam).flatMap(inkOf), boxes, unitsPerVu),
          turn: 0,
        });
    }
    if (kind === HAIRPIN) {
      const boxes = inkOf(element);
      if (boxes.length > 0) found.push({ ...inside, groups: [element], boxes, directions: [1, -1], turn: 1 });
      return;
    }
    const turn = kind === NUMBER ? 3 : WORDS.includes(kind) ? 2 : null;
    if (turn !== null) {
      const shift = overhangs.get(element.span.start) ?? NO_SHIFT;
      const boxes = inkOf(element).map((box) => moveBox(box, { x: shift.dx, y: shift.dy }));
      if (boxes.length > 0 && boxes.every(({ y1 }) => y1 < staffTop))
        found.push({
          groups: [element],
          boxes,
          shift,
          directions: [-1],
          farthestVu: FARTHEST_ABOVE_VU,
          aboveVu: turn === 3 ? ABOVE_VU : ABOVE_WORDS_VU,
          nearer: null,
          turn,
        });
      return;
    }
    const { e, f } =
      element.attributes.class === 'page-margin'
        ? readTransform(element.attributes.transform)
        : { e: origin.x, f: origin.y };
    for (const each of element.children) visit(each, { x: e, y: f }, kind === 'beam' ? element : beam);
  };
  visit(root, { x: 0, y: 0 }, null);
  return found.sort((a, b) => a.turn - b.turn || bottomOf(b.boxes) - bottomOf(a.boxes));
};

const isBracketed = (signs: readonly XmlElement[]): boolean =>
  signs.some((group) => kindOf(group) === 'tupletBracket');

/** The bars of the beams that a tuplet holds, or that hold it. */
const beamOver = (tuplet: XmlElement, around: XmlElement | null): XmlElement[] => {
  const own = descendantsNamed(tuplet, 'g').filter((group) => kindOf(group) === 'beam');
  return [...own, ...(around === null ? [] : [around])].flatMap(({ children }) =>
    children.filter(({ name }) => name === 'polygon'),
  );
};

const bottomOf = (boxes: readonly Box[]): number => Math.max(...boxes.map(({ y1 }) => y1));

const middleOf = (boxes: readonly Box[]): number =>
  boxes.reduce((sum, { y0, y1 }) => sum + (y0 + y1) / 2, 0) / boxes.length;
