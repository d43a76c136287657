import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';

/** The harp's staves that a measure of the document does not hold: the player rests there. */
export const missingStaves = (measure: XmlElement, staves: readonly string[]): readonly string[] => {
  const held = new Set(descendantsNamed(measure, 'staff').map((staff) => staff.attributes.n ?? ''));
  return staves.filter((n) => !held.has(n));
};

/** Writes the staves that a measure lacks, each in its place. @param layers of a staff, by its `n` */
export const missingStaffEdits = (
  measure: XmlElement,
  staves: readonly string[],
  layers: (n: string) => string,
): Edit[] => {
  const missing = missingStaves(measure, staves);
  const write = (n: string): string => `<staff n="${n}">${layers(n)}</staff>`;
  if (isWithoutEndTag(measure)) {
    const { end } = measure.span;
    return [{ start: end - '/>'.length, end, put: `>${missing.map(write).join('')}` }];
  }
  return missing.map((n) => {
    const above = staves.slice(0, staves.indexOf(n));
    const before = measure.children.findLast(
      ({ name, attributes }) => name === 'staff' && above.includes(attributes.n ?? ''),
    );
    return insertAt(before?.span.end ?? measure.inner.start, write(n));
  });
};

/** End tags for measures that had none: to be made after all edits inside them. */
export const endTagEdits = (measures: readonly XmlElement[]): Edit[] =>
  measures.filter(isWithoutEndTag).map(({ span }) => insertAt(span.end, '</measure>'));

const isWithoutEndTag = ({ span, inner }: XmlElement): boolean => inner.end === span.end;
