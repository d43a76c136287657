import { secondId, type XmlElement } from '../../../engine/index.ts';
import { type Edit, setAttribute } from '../../edit.ts';

/** Attributes of MEI that hold references to ids. */
export const REFERENCES = [
  'startid',
  'endid',
  'plist',
  'sameas',
  'corresp',
  'next',
  'prev',
  'synch',
] as const;

/** Edits of an element and all in it for the second player: ids, references and staves are named anew. */
export const renameEdits = (
  text: string,
  element: XmlElement,
  staves: ReadonlyMap<string, string>,
): readonly Edit[] => {
  const { attributes, span, name } = element;
  const set = (attribute: string, value: string): Edit => setAttribute(text, span.start, attribute, value);
  const id = attributes['xml:id'];
  const isStaff = name === 'staff' || name === 'staffDef';
  return [
    ...(id === undefined ? [] : [set('xml:id', secondId(id))]),
    ...(isStaff ? [set('n', staves.get(attributes.n ?? '') ?? '')] : []),
    ...(attributes.staff === undefined
      ? []
      : [
          set(
            'staff',
            eachWord(attributes.staff, (n) => staves.get(n) ?? n),
          ),
        ]),
    ...REFERENCES.flatMap((reference) => {
      const value = attributes[reference];
      return value === undefined ? [] : [set(reference, eachWord(value, secondId))];
    }),
    ...element.children.flatMap((child) => renameEdits(text, child, staves)),
  ];
};

const eachWord = (value: string, change: (word: string) => string): string =>
  value.trim().split(/\s+/).map(change).join(' ');
