import { childrenNamed, type Score, type XmlElement } from '../../../engine/index.ts';
import type { LayoutMei } from '../../layout/layout-mei.ts';
import { clefsInMeasure, followClefs, linesAbove, linesBelow } from './clefs.ts';

/** From here on ledger lines are hard to count (common practice, no source). */
const MANY = 5;

/** On a staff within reach a note needs no more than this. */
const FEW = 3;

/**
 * Bars (indices) with notes that are printed with many ledger lines towards the other staff of the harp, where they would
 * need few. Bars in which a clef changes are passed over.
 */
export const barsOfManyLedgerLines = (score: Score, mei: LayoutMei): readonly number[] => {
  const [upper, lower, ...more] = mei.staves;
  if (upper === undefined || lower === undefined || more.length > 0) return [];
  const bars = new Map(
    score.bars.flatMap((bar) => {
      const measure = mei.measureOf(bar);
      return measure === undefined ? [] : [[measure, bar.index] as const];
    }),
  );
  const found: number[] = [];
  followClefs(mei.root, [upper, lower], (measure, clefs) => {
    const isFar = ({ staff, position }: PlacedNote): boolean => {
      const [own, other] = [clefs.get(staff), clefs.get(staff === upper ? lower : upper)];
      if (own === undefined || other === undefined) return false;
      const lines = staff === upper ? linesBelow(position, own) : linesAbove(position, own);
      return lines >= MANY && Math.max(linesAbove(position, other), linesBelow(position, other)) <= FEW;
    };
    const bar = bars.get(measure);
    if (bar !== undefined && notesIn(measure, [upper, lower]).some(isFar)) found.push(bar);
  });
  return found;
};

interface PlacedNote {
  readonly staff: string;
  readonly position: number;
}

/** The notes of a measure without a clef in it. */
const notesIn = (measure: XmlElement, harp: readonly string[]): readonly PlacedNote[] =>
  clefsInMeasure(measure, harp).length > 0
    ? []
    : childrenNamed(measure, 'staff')
        .filter(({ attributes }) => harp.includes(attributes.n ?? ''))
        .flatMap((staff) => placedNotes(staff, staff.attributes.n!));

const placedNotes = (element: XmlElement, staff: string): readonly PlacedNote[] =>
  element.children.flatMap((each) => {
    const on = each.name === 'note' || each.name === 'chord' ? (each.attributes.staff ?? staff) : staff;
    if (each.name !== 'note') return placedNotes(each, on);
    const position = Number(each.attributes.oct) * 7 + 'cdefgab'.indexOf(each.attributes.pname ?? '');
    return Number.isFinite(position) && each.attributes.pname !== undefined ? [{ staff: on, position }] : [];
  });
