import type { XmlElement } from '../../../engine/index.ts';
import { cut, type Edit, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/**
 * Clefs that the file hides are shown: the layout would leave them out at every line from there on, and the notes could
 * not be read. A hidden clef that repeats the one in force goes.
 */
export const hiddenClefEdits = ({ root, staves, text }: LayoutMei): Edit[] => {
  const inForce = new Map<string, string>();
  const edits: Edit[] = [];
  const take = (element: XmlElement, staff: string, prefix: string): void => {
    const clef = CLEF.map((name) => element.attributes[`${prefix}${name}`] ?? '').join(' ');
    if (clef.trim() === '') return;
    const isHidden = element.attributes[`${prefix}visible`] === 'false';
    if (isHidden && prefix === '' && inForce.get(staff) === clef) edits.push(cut(element.span));
    else if (isHidden) edits.push(setAttribute(text, element.span.start, `${prefix}visible`, 'true'));
    inForce.set(staff, clef);
  };
  const visit = (element: XmlElement, staff: string | undefined): void => {
    const within = STAVES.has(element.name) ? (element.attributes.n ?? '') : staff;
    if (within !== undefined && staves.includes(within)) {
      if (element.name === 'staffDef') take(element, within, 'clef.');
      if (element.name === 'clef') take(element, within, '');
    }
    for (const each of element.children) visit(each, within);
  };
  visit(root, undefined);
  return edits;
};

/** What makes a clef another, as attributes of `clef` and, with a prefix, of `staffDef`. */
const CLEF = ['shape', 'line', 'dis', 'dis.place'] as const;

const STAVES: ReadonlySet<string> = new Set(['staff', 'staffDef']);
