import { childrenNamed, descendantsNamed, type Score, type XmlElement } from '../../../engine/index.ts';
import type { LayoutMei } from '../../layout/layout-mei.ts';

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
  const clefs: Clefs = new Map();
  const visit = (element: XmlElement): void => {
    if (element.name === 'staffDef') takeClef(clefs, element.attributes.n ?? '', element, 'clef.');
    if (element.name !== 'measure') {
      for (const each of element.children) visit(each);
      return;
    }
    const isFar = ({ staff, position }: PlacedNote): boolean => {
      const [own, other] = [clefs.get(staff), clefs.get(staff === upper ? lower : upper)];
      if (own === undefined || other === undefined) return false;
      const lines = staff === upper ? linesBelow(position, own) : linesAbove(position, own);
      return lines >= MANY && Math.max(linesAbove(position, other), linesBelow(position, other)) <= FEW;
    };
    const bar = bars.get(element);
    if (notesIn(element, [upper, lower], clefs).some(isFar) && bar !== undefined) found.push(bar);
  };
  visit(mei.root);
  return found;
};

/** For each staff, the step of its lowest line: steps count up from C0. */
type Clefs = Map<string, number>;

/** Line 1 of the staff is as far below the clef's own line as its number says. */
const STEPS: Readonly<Record<string, number>> = { G: 32, F: 24, C: 28 };

const OCTAVES: Readonly<Record<string, number>> = { 8: 7, 15: 14, 22: 21 };

const takeClef = (
  clefs: Clefs,
  staff: string,
  { attributes, children }: XmlElement,
  prefix: string,
): void => {
  const step = STEPS[attributes[`${prefix}shape`] ?? ''];
  const line = Number(attributes[`${prefix}line`]);
  if (step !== undefined && line >= 1) {
    const octaves = OCTAVES[attributes[`${prefix}dis`] ?? ''] ?? 0;
    const shift = attributes[`${prefix}dis.place`] === 'below' ? -octaves : octaves;
    clefs.set(staff, step - 2 * (line - 1) + shift);
  }
  for (const each of children) if (each.name === 'clef') takeClef(clefs, staff, each, '');
};

const linesBelow = (position: number, lowest: number): number =>
  Math.max(0, Math.floor((lowest - position) / 2));

/** The top line is eight steps above the lowest. */
const linesAbove = (position: number, lowest: number): number =>
  Math.max(0, Math.floor((position - lowest - 8) / 2));

interface PlacedNote {
  readonly staff: string;
  readonly position: number;
}

/** The notes of a measure without a clef in it; clefs in it count from its end on. */
const notesIn = (measure: XmlElement, harp: readonly string[], clefs: Clefs): readonly PlacedNote[] => {
  const staves = childrenNamed(measure, 'staff').filter(({ attributes }) =>
    harp.includes(attributes.n ?? ''),
  );
  const changes = staves.flatMap((staff) =>
    descendantsNamed(staff, 'clef').map((clef) => ({ clef, n: staff.attributes.n! })),
  );
  if (changes.length === 0) return staves.flatMap((staff) => placedNotes(staff, staff.attributes.n!));
  for (const { clef, n } of changes) takeClef(clefs, n, clef, '');
  return [];
};

const placedNotes = (element: XmlElement, staff: string): readonly PlacedNote[] =>
  element.children.flatMap((each) => {
    const on = each.name === 'note' || each.name === 'chord' ? (each.attributes.staff ?? staff) : staff;
    if (each.name !== 'note') return placedNotes(each, on);
    const position = Number(each.attributes.oct) * 7 + 'cdefgab'.indexOf(each.attributes.pname ?? '');
    return Number.isFinite(position) && each.attributes.pname !== undefined ? [{ staff: on, position }] : [];
  });
