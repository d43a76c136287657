import { secondId, type XmlElement } from '../../../engine/index.ts';
import { cut, type Edit, editSlices, insertAt, setAttribute } from '../../edit.ts';
import type { OwnStaves } from './own-notes.ts';
import { REFERENCES, renameEdits } from './second-names.ts';

/** A bar, and what each player has in it. */
export interface BarEvents {
  readonly measure: XmlElement;
  readonly players: readonly [OwnStaves, OwnStaves];
}

/** Events that hold for every player: they stand over the first. */
const FOR_EVERY_PLAYER = new Set(['tempo', 'reh', 'repeatMark']);

/**
 * Edits for what stands in a bar beside its staves: the second player gets a copy, and what hangs on notes that a player
 * does not play goes.
 *
 * @param removed ids of what was taken out of the whole part, for each player
 */
export const eventsForTwo = (
  text: string,
  { measure, players }: BarEvents,
  removed: readonly [ReadonlySet<string>, ReadonlySet<string>],
  staves: ReadonlyMap<string, string>,
): readonly Edit[] =>
  measure.children.flatMap((event) => {
    if (event.name === 'staff' || event.name === 'oStaff') return [];
    const references = referencesOf(event);
    const isForAll =
      FOR_EVERY_PLAYER.has(event.name) || (references.length === 0 && event.attributes.staff === undefined);
    if (isForAll) return references.some((id) => removed[0].has(id)) ? atBarStart(text, event) : [];
    const edits = [0, 1].map((player) =>
      references.length > 0
        ? stayingEdits(text, event, removed[player]!, player === 0 ? (id) => id : secondId)
        : players[player]!.plays
          ? []
          : null,
    );
    const [first, second] = edits;
    const copy = second == null ? null : editSlices(text, [...second, ...renameEdits(text, event, staves)]);
    return [
      ...(first ?? [cut(event.span)]),
      ...(copy === null ? [] : [insertAt(measure.inner.end, copy(event.span))]),
    ];
  });

const idsIn = (value: string | undefined): readonly string[] =>
  (value ?? '')
    .split(/\s+/)
    .filter((each) => each !== '')
    .map((each) => each.replace(/^#/, ''));

const referencesOf = ({ attributes }: XmlElement): readonly string[] =>
  REFERENCES.flatMap((name) => idsIn(attributes[name]));

/**
 * @param nameOf what the player's notes are called
 * @returns null where the event hangs on a note that is gone
 */
const stayingEdits = (
  text: string,
  { attributes, span }: XmlElement,
  removed: ReadonlySet<string>,
  nameOf: (id: string) => string,
): readonly Edit[] | null => {
  const ends = [...idsIn(attributes.startid), ...idsIn(attributes.endid)];
  if (ends.some((id) => removed.has(id))) return null;
  const list = idsIn(attributes.plist);
  const left = list.filter((id) => !removed.has(id));
  if (left.length === list.length) return [];
  if (left.length === 0) return null;
  return [setAttribute(text, span.start, 'plist', left.map((id) => `#${nameOf(id)}`).join(' '))];
};

/** A tempo whose note is the other player's stands at the start of the bar. */
const atBarStart = (text: string, { span }: XmlElement): readonly Edit[] => [
  setAttribute(text, span.start, 'tstamp', '1'),
  { ...setAttribute(text, span.start, 'startid', ''), put: '' },
];
