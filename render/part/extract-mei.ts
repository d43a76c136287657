import { childrenNamed, descendantsNamed, type Score, type XmlElement } from '../../engine/index.ts';
import { cut, type Edit, setAttribute } from '../edit.ts';
import { elementOwners } from '../layout/document/layout-mei.ts';

/** Events that hold for every player and move to the harp's upper staff when their own staff goes. */
const FOR_EVERY_STAFF = new Set(['tempo', 'reh', 'repeatMark']);
const REFERENCES = ['startid', 'endid', 'plist'] as const;

/** The harp's share of an MEI score. */
export interface HarpMei {
  readonly edits: readonly Edit[];
  /** Start offsets of the events beside the staves that are left out. */
  readonly dropped: ReadonlySet<number>;
}

/**
 * Edits that leave the harp alone in an MEI score: other staves, their definitions and what hangs on them go; tempo
 * and rehearsal marks move to the harp, each once; every note, rest and bar gets the score's id.
 */
export const extractHarpMei = (score: Score): HarpMei => {
  const kept = new Set(score.harp.meiStaves);
  const { root, text } = score.source;
  const removed = descendantsNamed(root, 'staff', 'oStaff').filter(
    (staff) => !kept.has(staff.attributes.n ?? ''),
  );
  const removedIds = new Set(removed.flatMap(idsWithin));
  const context: Context = { kept, removedIds };
  const top = score.harp.meiStaves[0]!;
  const dropped: XmlElement[] = [];
  const moves: Edit[] = [];
  for (const measure of descendantsNamed(root, 'measure')) {
    const fates = measure.children.map((event) => ({ event, fate: fateOf(event, context) }));
    const shown = new Set(
      fates.filter(({ fate }) => fate === 'stays').map(({ event }) => saying(event, text)),
    );
    for (const { event, fate } of fates) {
      if (fate === 'stays') continue;
      if (fate === 'goes' || shown.has(saying(event, text))) dropped.push(event);
      else {
        shown.add(saying(event, text));
        moves.push(setAttribute(text, event.span.start, 'staff', top));
        moves.push(setAttribute(text, event.span.start, 'place', 'above'));
      }
    }
  }
  return {
    edits: [
      ...idEdits(score),
      ...[...removed, ...dropped].map((element) => cut(element.span)),
      ...definitionEdits(root, kept, text),
      ...moves,
    ],
    dropped: new Set(dropped.map(({ span }) => span.start)),
  };
};

interface Context {
  readonly kept: ReadonlySet<string>;
  readonly removedIds: ReadonlySet<string>;
}

/** What an event says, without its formatting. */
const saying = ({ name, inner }: XmlElement, text: string): string =>
  `${name} ${text.slice(inner.start, inner.end).replace(/<[^>]*>|\s/g, '')}`;

const idsWithin = (element: XmlElement): string[] => {
  const ids = element.attributes['xml:id'] === undefined ? [] : [element.attributes['xml:id']];
  for (const each of element.children) ids.push(...idsWithin(each));
  return ids;
};

/** Other staves go; a bracket that held the harp together with them goes as well. */
const definitionEdits = (root: XmlElement, kept: ReadonlySet<string>, text: string): Edit[] => {
  const isOther = (definition: XmlElement): boolean => !kept.has(definition.attributes.n ?? '');
  const groups = descendantsNamed(root, 'staffGrp').map((group) => ({
    group,
    staves: descendantsNamed(group, 'staffDef'),
  }));
  const mixed = groups.filter(({ staves }) => staves.some(isOther) && !staves.every(isOther));
  return [
    ...descendantsNamed(root, 'staffDef')
      .filter(isOther)
      .map(({ span }) => cut(span)),
    ...groups.filter(({ staves }) => staves.every(isOther)).map(({ group }) => cut(group.span)),
    ...mixed.flatMap(({ group }) => [
      setAttribute(text, group.span.start, 'symbol', 'none'),
      ...childrenNamed(group, 'grpSym').map(({ span }) => cut(span)),
    ]),
  ];
};

/**
 * Whether an event beside the staves stays, moves to the harp, or goes. What hangs on a note of another staff goes: a
 * tempo or rehearsal mark comes back from the score’s texts, which know their time.
 */
const fateOf = (event: XmlElement, { kept, removedIds }: Context): 'stays' | 'moves' | 'goes' => {
  if (event.name === 'staff' || event.name === 'oStaff') return 'stays';
  const staves = (event.attributes.staff ?? '').split(/\s+/).filter((n) => n !== '');
  const references = REFERENCES.flatMap((name) => (event.attributes[name] ?? '').split(/\s+/))
    .filter((id) => id !== '')
    .map((id) => id.replace(/^#/, ''));
  if (references.some((id) => removedIds.has(id))) return 'goes';
  if (staves.length === 0 || staves.some((n) => kept.has(n))) return 'stays';
  return FOR_EVERY_STAFF.has(event.name) ? 'moves' : 'goes';
};

const idEdits = (score: Score): Edit[] => {
  const { text } = score.source;
  return elementOwners(score)
    .filter(({ span, id }) => !text.startsWith(`xml:id="${id}"`, span.start))
    .map(({ span, id }) => setAttribute(text, span.start, 'xml:id', id));
};
