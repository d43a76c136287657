import type { XmlElement } from '../../../engine/index.ts';
import { cut, type Edit, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/**
 * Clefs that the file hides are shown: the layout would leave them out at every line from there on, and the notes could not
 * be read. A hidden clef that repeats the one in force goes, and so does any in a bar of rest, where it says nothing and
 * would part the rests that are joined.
 */
export const clefSignEdits = (mei: LayoutMei): Edit[] => {
  const { hidden, needless } = clefSignsOf(mei);
  return [
    ...[...hidden].map(([element, name]) => setAttribute(mei.text, element.span.start, name, 'true')),
    ...[...needless].map(({ span }) => cut(span)),
  ];
};

interface ClefSigns {
  /** What hides them: the name of the attribute. */
  readonly hidden: ReadonlyMap<XmlElement, string>;
  /** Those that go. */
  readonly needless: ReadonlySet<XmlElement>;
}

/** The clefs of the harp's staves that are not printed as the file has them. */
export const clefSignsOf = ({ root, staves }: LayoutMei): ClefSigns => {
  const inForce = new Map<string, string>();
  const hidden = new Map<XmlElement, string>();
  const needless = new Set<XmlElement>();
  const take = (element: XmlElement, staff: string, prefix: string, isSilent: boolean): void => {
    const clef = CLEF.map((name) => element.attributes[`${prefix}${name}`] ?? '').join(' ');
    if (clef.trim() === '') return;
    const isHidden = element.attributes[`${prefix}visible`] === 'false';
    if (prefix === '' && inForce.get(staff) === clef && (isHidden || isSilent)) needless.add(element);
    else if (isHidden) hidden.set(element, `${prefix}visible`);
    inForce.set(staff, clef);
  };
  const visit = (element: XmlElement, staff: string | undefined, isSilent: boolean): void => {
    const within = STAVES.has(element.name) ? (element.attributes.n ?? '') : staff;
    if (within !== undefined && staves.includes(within)) {
      if (element.name === 'staffDef') take(element, within, 'clef.', isSilent);
      if (element.name === 'clef') take(element, within, '', isSilent);
    }
    const holdsRests = isSilent || (element.name === 'staff' && holdsOneRest(element));
    for (const each of element.children) visit(each, within, holdsRests);
  };
  visit(root, undefined, false);
  return { hidden, needless };
};

/** What makes a clef another, as attributes of `clef` and, with a prefix, of `staffDef`. */
const CLEF = ['shape', 'line', 'dis', 'dis.place'] as const;

/** Whether a staff of a bar has one voice, which rests for all of it; two may refer to each other's clefs. */
const holdsOneRest = ({ children }: XmlElement): boolean =>
  children.length === 1 &&
  children[0]!.children.some(({ name }) => name === 'mRest') &&
  children[0]!.children.every(({ name }) => name === 'mRest' || name === 'clef');

const STAVES: ReadonlySet<string> = new Set(['staff', 'staffDef']);
