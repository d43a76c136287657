import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { type Edit, setAttribute } from '../../edit.ts';

const RESTS: ReadonlySet<string> = new Set(['mRest', 'multiRest', 'rest', 'mSpace', 'space']);

/** Shows the staves that a score hides while their player rests: a part has no other, and would have holes there. */
export const shownStaffEdits = (text: string, root: XmlElement, staves: readonly string[]): Edit[] =>
  descendantsNamed(root, 'staff')
    .filter(
      ({ attributes, children }) =>
        attributes.visible === 'false' &&
        staves.includes(attributes.n ?? '') &&
        children.every((layer) => layer.children.every(({ name }) => RESTS.has(name))),
    )
    .map(({ span }) => setAttribute(text, span.start, 'visible', 'true'));
