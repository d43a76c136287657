import { childrenNamed, type Score, type XmlElement } from '../../../engine/index.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { type Clefs, clefsInMeasure, followClefs, linesAbove, linesBelow } from './clefs.ts';

/** From here on ledger lines are hard to count (common practice, no source). */
const MANY = 5;

/** On a staff within reach a note needs no more than this. */
const FEW = 3;

/** The two staves of a harp, `n` of each. */
export type StaffPair = readonly [upper: string, lower: string];

/** A note of a measure, on the staff on which it is printed. */
export interface PlacedNote {
  readonly element: XmlElement;
  readonly staff: string;
  /** Steps up from C0. */
  readonly position: number;
}

/** What a note would need on either staff of its harp. */
export interface Reach {
  /** It has many ledger lines towards the other staff. */
  readonly isFar: boolean;
  /** On the other staff it needs few. */
  readonly isWithin: boolean;
}

/** Null where a clef is unknown. */
export const reachOf = (
  { staff, position }: PlacedNote,
  [upper, lower]: StaffPair,
  clefs: Clefs,
): Reach | null => {
  const [own, other] = [clefs.get(staff), clefs.get(staff === upper ? lower : upper)];
  if (own === undefined || other === undefined) return null;
  const lines = staff === upper ? linesBelow(position, own) : linesAbove(position, own);
  return {
    isFar: lines >= MANY,
    isWithin: Math.max(linesAbove(position, other), linesBelow(position, other)) <= FEW,
  };
};

/**
 * Bars (indices) with notes that are printed with many ledger lines towards the other staff of the harp, where they would
 * need few. Bars in which a clef changes are passed over.
 *
 * @param crossed start tags of notes that are written on the other staff
 */
export const barsOfManyLedgerLines = (
  score: Score,
  mei: LayoutMei,
  staves: StaffPair | null,
  crossed: ReadonlySet<number>,
): readonly number[] => {
  if (staves === null) return [];
  const bars = new Map(
    score.bars.flatMap((bar) => {
      const measure = mei.measureOf(bar);
      return measure === undefined ? [] : [[measure, bar.index] as const];
    }),
  );
  const found: number[] = [];
  followClefs(mei.root, staves, (measure, clefs) => {
    const bar = bars.get(measure);
    const isHard = (note: PlacedNote): boolean => {
      const reach = reachOf(note, staves, clefs);
      return reach?.isFar === true && reach.isWithin && !crossed.has(note.element.span.start);
    };
    if (bar !== undefined && notesIn(measure, staves).some(isHard)) found.push(bar);
  });
  return found;
};

/** The notes of a measure without a clef in it. */
const notesIn = (measure: XmlElement, staves: StaffPair): readonly PlacedNote[] =>
  clefsInMeasure(measure, staves).length > 0
    ? []
    : childrenNamed(measure, 'staff')
        .filter(({ attributes }) => staves.includes(attributes.n ?? ''))
        .flatMap((staff) => placedNotes(staff, staff.attributes.n!));

/** The notes in an element that stands on a staff, which may name another. */
export const placedNotes = (element: XmlElement, staff: string): readonly PlacedNote[] => {
  const isEvent = element.name === 'note' || element.name === 'chord';
  const on = isEvent ? (element.attributes.staff ?? staff) : staff;
  if (element.name !== 'note') return element.children.flatMap((each) => placedNotes(each, on));
  const { oct, pname = '' } = element.attributes;
  const position = Number(oct) * 7 + 'cdefgab'.indexOf(pname);
  return Number.isFinite(position) && pname !== '' ? [{ element, staff: on, position }] : [];
};
