import type { XmlElement } from '../../../engine/index.ts';
import type { Box } from '../../text/outline.ts';
import { EVERYTHING, moveBox } from '../drawn-groups.ts';
import type { MovedGroups } from '../moved-groups.ts';
import { findObstacles } from '../obstacles.ts';
import type { Point } from '../outline-boxes.ts';
import { CHORD_SYMBOL, dropDepth, findChordSymbols } from './chord-symbols.ts';
import { type DrawnPage, readDrawnPage } from './drawn-page.ts';
import { freeWay, joinBoxes, leastTouchedWay } from './free-place.ts';
import { findHairpins, HAIRPIN } from './hairpins.ts';
import { DYNAMIC, findInnerWords, WORDS } from './inner-words.ts';
import type { Movable } from './movable.ts';
import { findOuterWords, NUMBER } from './outer-words.ts';
import { findRestsAndClefs, RESTS_AND_CLEFS } from './rests-and-clefs.ts';
import { findTupletFigures, TUPLET_SIGNS } from './tuplet-figures.ts';

export interface ClearingRequest {
  readonly overhangs: MovedGroups;
  /** Ids of groups that are passed over: they are placed later. */
  readonly passed: ReadonlySet<string>;
  /** The top line of the first staff. */
  readonly staffTop: number;
  readonly unitsPerVu: number;
  /** Counts over the system, which words and the numbers of bars give way to: the boxes of their ink. */
  readonly counts: readonly Box[];
  /** What is told over the system before the first note and placed later, as a table of levers: the boxes of its ink. */
  readonly starts: readonly Box[];
}

export interface ClearedGroups {
  readonly moved: MovedGroups;
  /** Where the highest of those that were moved ends; infinity where none was. */
  readonly top: number;
  /** Where the lowest of them ends. */
  readonly bottom: number;
  /** How many lie on something all the same, for want of space. */
  readonly crowded: number;
}

/** What the layout sets without a look at everything that is there. */
const UNSETTLED: ReadonlySet<string> = new Set([
  ...RESTS_AND_CLEFS,
  ...TUPLET_SIGNS,
  ...WORDS,
  HAIRPIN,
  CHORD_SYMBOL,
  NUMBER,
  DYNAMIC,
]);

/** What runs through the whole system, and the words of a song, which have their own line. */
const STAFF_LINES: ReadonlySet<string> = new Set(['staff', 'barLine', 'ledgerLines']);
/** What rests and clefs keep clear of: curves and lines may pass over them. */
const NOTES: ReadonlySet<string> = new Set(['notehead', 'accid', 'stem', 'beam', 'flag', 'barLine']);

/**
 * Moves what the layout has set on something off whatever it touches: rests, clefs, figures of tuplets, words and dynamics,
 * hairpins, words over the system and bar numbers, in this order. Each goes as little as it must, and gives way to those before it.
 */
export const clearOfMusic = (svg: string, root: XmlElement, request: ClearingRequest): ClearedGroups => {
  const page = readDrawnPage({ svg, root, ...request });
  const found = findObstacles(svg, root, { ...EVERYTHING, skipped: page.passed, passable: UNSETTLED });
  const notes = found.filter(({ kind }) => NOTES.has(kind)).map(({ box }) => box);
  const barLines = found.filter(({ kind }) => kind === 'barLine').map(({ box }) => box);
  const settled = found.filter(({ kind }) => !STAFF_LINES.has(kind)).map(({ box }) => box);
  const moved = new Map(request.overhangs);
  const settle = settler(page, { notes, settled, moved });
  settle(findRestsAndClefs(page, notes));
  const chords = findChordSymbols(page);
  if (chords !== null) {
    const down = dropDepth(chords.boxes, settled, page);
    settled.push(...chords.boxes.map((box) => moveBox(box, { x: 0, y: down })));
    for (const group of chords.groups) moved.set(group.span.start, { dx: 0, dy: down });
  }
  const settledOnes = [
    settle(findTupletFigures(page)),
    settle(findInnerWords(page, settled, barLines)),
    settle(findHairpins(page)),
  ].flat();
  settled.push(...request.counts);
  settledOnes.push(...settle(findOuterWords(page, settled, request)));
  return {
    moved,
    top: Math.min(...settledOnes.map(({ top }) => top)),
    bottom: Math.max(...settledOnes.map(({ bottom }) => bottom)),
    crowded: settledOnes.filter(({ isCrowded }) => isCrowded).length,
  };
};

interface Ground {
  readonly notes: readonly Box[];
  /** What is settled so far. */
  readonly settled: Box[];
  readonly moved: Map<number, { readonly dx: number; readonly dy: number }>;
}

/** Where something has come to stand; what was not moved reaches nowhere. */
interface Settled {
  readonly top: number;
  readonly bottom: number;
  readonly isCrowded: boolean;
}

/** Settles one after the other. */
const settler =
  (page: DrawnPage, { moved, notes, settled }: Ground) =>
  (movables: readonly Movable[]): Settled[] =>
    movables.map((each) => {
      const others = { ink: settled, notes, 'ink-and-staves': [...settled, ...page.staves] }[each.clearOf];
      const { by, isCrowded } = wayFor(each, others, page.unitsPerVu);
      const own = each.boxes.map((box) => moveBox(box, by));
      settled.push(...own);
      for (const { group, shift } of each.groups) {
        const [dx, dy] = [shift.dx + by.x, shift.dy + by.y];
        if (dx !== 0 || dy !== 0) moved.set(group.span.start, { dx, dy });
      }
      const isMoved = by.x !== 0 || by.y !== 0;
      return {
        top: isMoved ? joinBoxes(own).y0 : Number.POSITIVE_INFINITY,
        bottom: isMoved ? joinBoxes(own).y1 : Number.NEGATIVE_INFINITY,
        isCrowded,
      };
    });

const NOWHERE: Point = { x: 0, y: 0 };

/** Boxes claim more than the ink of curves and letters: so much is none to be seen, in vu squared. */
const UNSEEN_VU2 = 1;

const wayFor = (
  { boxes, margins, otherwise, rather, ways }: Movable,
  others: readonly Box[],
  unitsPerVu: number,
): { readonly by: Point; readonly isCrowded: boolean } => {
  const pastAll =
    rather === undefined
      ? null
      : freeWay(boxes, rather.ways, [...others, ...rather.boxes], margins, unitsPerVu);
  const free = pastAll ?? freeWay(boxes, ways, others, margins, unitsPerVu);
  if (free !== null) return { by: free, isCrowded: false };
  if (otherwise === 'stay') return { by: NOWHERE, isCrowded: false };
  const { by, touchedVu2 } = leastTouchedWay(boxes, ways, others, unitsPerVu);
  return { by, isCrowded: touchedVu2 > UNSEEN_VU2 };
};
