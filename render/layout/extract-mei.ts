import type { Score } from '../../engine/score/model.ts';
import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import { cut, type Edit, setAttribute } from '../edit.ts';
import { elementOwners } from './layout-mei.ts';

/** Events that hold for every player and move to the harp's upper staff when their own staff goes. */
const FOR_EVERY_STAFF = new Set(['tempo', 'reh', 'repeatMark']);
const REFERENCES = ['startid', 'endid', 'plist'] as const;

/**
 * Edits that leave the harp alone in an MEI score: other staves, their definitions and what hangs on them go; tempo
 * and rehearsal marks move to the harp; every note, rest and bar gets the score's id.
 */
export const harpMeiEdits = (score: Score): Edit[] => {
  const kept = new Set(score.harp.meiStaves);
  const { root, text } = score.source;
  const removed = descendantsNamed(root, 'staff', 'oStaff').filter(
    (staff) => !kept.has(staff.attributes.n ?? ''),
  );
  const removedIds = new Set(removed.flatMap(idsWithin));
  const context: Context = { text, kept, top: score.harp.meiStaves[0]!, removedIds };
  return [
    ...idEdits(score),
    ...removed.map((staff) => cut(staff.span)),
    ...definitionEdits(root, kept),
    ...descendantsNamed(root, 'measure').flatMap((measure) =>
      measure.children.flatMap((event) => controlEventEdits(event, context)),
    ),
  ];
};

interface Context {
  readonly text: string;
  readonly kept: ReadonlySet<string>;
  readonly top: string;
  readonly removedIds: ReadonlySet<string>;
}

const idsWithin = (element: XmlElement): string[] => {
  const ids = element.attributes['xml:id'] === undefined ? [] : [element.attributes['xml:id']];
  for (const each of element.children) ids.push(...idsWithin(each));
  return ids;
};

const definitionEdits = (root: XmlElement, kept: ReadonlySet<string>): Edit[] => {
  const isOther = (definition: XmlElement): boolean => !kept.has(definition.attributes.n ?? '');
  const isEmpty = (group: XmlElement): boolean => descendantsNamed(group, 'staffDef').every(isOther);
  return [
    ...descendantsNamed(root, 'staffDef').filter(isOther),
    ...descendantsNamed(root, 'staffGrp').filter(isEmpty),
  ].map((element) => cut(element.span));
};

const controlEventEdits = (event: XmlElement, context: Context): Edit[] => {
  if (event.name === 'staff' || event.name === 'oStaff') return [];
  const { text, kept, top, removedIds } = context;
  const staves = (event.attributes.staff ?? '').split(/\s+/).filter((n) => n !== '');
  const references = REFERENCES.flatMap((name) => (event.attributes[name] ?? '').split(/\s+/))
    .filter((id) => id !== '')
    .map((id) => id.replace(/^#/, ''));
  const hangsElsewhere = references.some((id) => removedIds.has(id));
  const onOtherStaves = staves.length > 0 && !staves.some((n) => kept.has(n));
  if (!hangsElsewhere && !onOtherStaves) return [];
  if (!FOR_EVERY_STAFF.has(event.name)) return [cut(event.span)];
  const start = event.span.start;
  return [
    setAttribute(text, start, 'staff', top),
    ...(hangsElsewhere && event.attributes.startid !== undefined
      ? [setAttribute(text, start, 'startid', '')]
      : []),
  ];
};

const idEdits = (score: Score): Edit[] => {
  const { text } = score.source;
  return elementOwners(score)
    .filter(({ span, id }) => !text.startsWith(`xml:id="${id}"`, span.start))
    .map(({ span, id }) => setAttribute(text, span.start, 'xml:id', id));
};
