import { childrenNamed, descendantsNamed, type XmlElement } from '../../../engine/index.ts';

/** For each staff, the step of its lowest line: steps count up from C0. */
export type Clefs = Map<string, number>;

/** Line 1 of the staff is as far below the clef's own line as its number says. */
const STEPS: Readonly<Record<string, number>> = { G: 32, F: 24, C: 28 };

const OCTAVES: Readonly<Record<string, number>> = { 8: 7, 15: 14, 22: 21 };

/** @param prefix of the attributes, which a staff's definition has beside its own */
export const takeClef = (
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

/** The clefs inside a measure, each with the `n` of its staff. */
export const clefsInMeasure = (
  measure: XmlElement,
  staves: readonly string[],
): readonly { readonly clef: XmlElement; readonly n: string }[] =>
  childrenNamed(measure, 'staff')
    .filter(({ attributes }) => staves.includes(attributes.n ?? ''))
    .flatMap((staff) =>
      descendantsNamed(staff, 'clef').map((clef) => ({ clef, n: staff.attributes.n ?? '' })),
    );

/** Calls back for each measure with the clefs with which it begins. */
export const followClefs = (
  root: XmlElement,
  staves: readonly string[],
  tell: (measure: XmlElement, clefs: Clefs) => void,
): void => {
  const clefs: Clefs = new Map();
  const visit = (element: XmlElement): void => {
    if (element.name === 'staffDef') takeClef(clefs, element.attributes.n ?? '', element, 'clef.');
    if (element.name !== 'measure') {
      for (const each of element.children) visit(each);
      return;
    }
    tell(element, clefs);
    for (const { clef, n } of clefsInMeasure(element, staves)) takeClef(clefs, n, clef, '');
  };
  visit(root);
};

export const linesBelow = (position: number, lowest: number): number =>
  Math.max(0, Math.floor((lowest - position) / 2));

/** The top line is eight steps above the lowest. */
export const linesAbove = (position: number, lowest: number): number =>
  Math.max(0, Math.floor((position - lowest - 8) / 2));
