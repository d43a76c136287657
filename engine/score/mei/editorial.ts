import type { XmlElement } from '../../xml/tree.ts';
import type { ReadLog } from './log.ts';

/** Marks of editing that leave the music as it is: their content counts as content of the parent. */
const TRANSPARENT: ReadonlySet<string> = new Set([
  'abbr',
  'add',
  'corr',
  'damage',
  'expan',
  'lem',
  'orig',
  'rdg',
  'reg',
  'restore',
  'sic',
  'supplied',
  'unclear',
]);

/** For each element that holds alternatives: which child is read, best first, and how the user is told. */
const ALTERNATIVES: ReadonlyMap<string, { readonly best: readonly string[]; readonly told: string }> =
  new Map([
    [
      'app',
      {
        best: ['lem', 'rdg'],
        told: 'The file has several readings of a passage; the lemma is used, or else the first.',
      },
    ],
    [
      'choice',
      {
        best: ['corr', 'reg', 'expan', 'unclear', 'orig', 'sic', 'abbr', 'choice'],
        told: 'The file has alternatives for a passage; the corrected, regularised or expanded one is used.',
      },
    ],
    [
      'subst',
      { best: ['add', 'corr', 'restore'], told: 'The file has a substitution; the added text is used.' },
    ],
  ]);

/**
 * The children of an element as performed: one alternative of each is chosen, deleted text left out, and marks of
 * editing seen through (MEI Guidelines, chapter on critical editing: the choice itself is ours and remarked on).
 */
export const contentOf = (element: XmlElement, log: ReadLog): readonly XmlElement[] =>
  element.children.some((each) => isEditorial(each))
    ? element.children.flatMap((each) => seenThrough(each, log))
    : element.children;

const EDITORIAL: ReadonlySet<string> = new Set(['del', ...ALTERNATIVES.keys(), ...TRANSPARENT]);

const isEditorial = (element: XmlElement): boolean => EDITORIAL.has(element.name);

const seenThrough = (element: XmlElement, log: ReadLog): readonly XmlElement[] => {
  if (element.name === 'del') return [];
  const alternatives = ALTERNATIVES.get(element.name);
  if (alternatives !== undefined) {
    log.remark('alternative-chosen', null, alternatives.told);
    const chosen = alternatives.best
      .map((name) => element.children.find((each) => each.name === name))
      .find((each) => each !== undefined);
    return chosen === undefined ? [] : seenThrough(chosen, log);
  }
  return TRANSPARENT.has(element.name) ? contentOf(element, log) : [element];
};
