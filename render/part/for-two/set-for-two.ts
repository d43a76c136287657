import {
  childrenNamed,
  descendantsNamed,
  escapeText,
  type HarpPart,
  parseXml,
  secondId,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit, editSlices, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';
import { type BarEvents, eventsForTwo } from './bar-events.ts';
import { type OwnStaves, takeOwnNotes } from './own-notes.ts';
import { renameEdits } from './second-names.ts';

/**
 * Sets the staves of a part a second time under themselves, each time with the notes of one of its two players; the second
 * player's have ids of their own (`secondId`). Tempo and rehearsal marks stand over the first player's staves alone.
 *
 * @param text the part as MEI
 * @param first `n` of its staves from the top
 * @param harps what the two staves are called, from the top
 * @param others ids of the notes that the player on whose staves they stand does not play
 */
export const setForTwo = (
  text: string,
  first: readonly string[],
  harps: readonly HarpPart[],
  others: ReadonlySet<string>,
): LayoutMei | null => {
  const parsed = parseXml(text);
  if (!parsed.ok) return null;
  const staves = secondStaves(first);
  const bars = descendantsNamed(parsed.value, 'measure').map((measure) =>
    shareBar(text, measure, staves, others),
  );
  const written = editSlices(text, [
    ...definitionEdits(text, parsed.value, staves, harps),
    ...barEdits(text, bars, staves),
  ])(parsed.value.span);
  const set = parseXml(written);
  if (!set.ok) return null;
  const elements = new Map(
    descendantsNamed(set.value, 'measure', 'note', 'rest', 'mRest', 'chord').map((each) => [
      each.attributes['xml:id'] ?? '',
      each,
    ]),
  );
  return {
    text: written,
    root: set.value,
    staves: [...staves.keys(), ...staves.values()],
    measureOf: ({ id }) => elements.get(id),
    tagOf: ({ id }) => elements.get(id)?.span.start,
    isDropped: () => false,
  };
};

/** The `n` of each second staff, by that of the first. */
const secondStaves = (staves: readonly string[]): ReadonlyMap<string, string> => {
  const highest = Math.max(...staves.map(Number).filter(Number.isFinite), 0);
  return new Map(staves.map((n, i) => [n, `${highest + 1 + i}`]));
};

/** One bar, taken apart. */
interface SharedBar extends BarEvents {
  readonly staves: readonly XmlElement[];
  readonly players: readonly [OwnStaves, OwnStaves];
}

const shareBar = (
  text: string,
  measure: XmlElement,
  seconds: ReadonlyMap<string, string>,
  others: ReadonlySet<string>,
): SharedBar => {
  const staves = childrenNamed(measure, 'staff').filter(({ attributes }) => seconds.has(attributes.n ?? ''));
  return {
    measure,
    staves,
    players: [
      takeOwnNotes(text, staves, (id) => others.has(id)),
      takeOwnNotes(text, staves, (id) => others.has(secondId(id))),
    ],
  };
};

const barEdits = (
  text: string,
  bars: readonly SharedBar[],
  seconds: ReadonlyMap<string, string>,
): readonly Edit[] => {
  const removed = [0, 1].map((player) => new Set(bars.flatMap(({ players }) => players[player]!.removed)));
  return bars.flatMap((bar) => {
    const { measure, staves, players } = bar;
    const copy = editSlices(text, [
      ...players[1].edits,
      ...staves.flatMap((staff) => renameEdits(text, staff, seconds)),
    ]);
    const last = staves.at(-1);
    return [
      ...players[0].edits,
      ...(last === undefined ? [] : [insertAt(last.span.end, staves.map(({ span }) => copy(span)).join(''))]),
      ...eventsForTwo(text, { measure, players }, [removed[0]!, removed[1]!], seconds),
    ];
  });
};

/** Groups of staves with a brace and a name each, in place of the one that was. */
const definitionEdits = (
  text: string,
  root: XmlElement,
  seconds: ReadonlyMap<string, string>,
  harps: readonly HarpPart[],
): readonly Edit[] => {
  const groups = descendantsNamed(root, 'scoreDef').flatMap((score) => childrenNamed(score, 'staffGrp'));
  const grouped = groups.flatMap((group) => descendantsNamed(group, 'staffDef'));
  const nameless = editSlices(
    text,
    grouped.flatMap((each) => labelsOf(each).map(({ span }) => cut(span))),
  );
  const inGroups = new Set(grouped.map(({ span }) => span.start));
  const changes = descendantsNamed(root, 'staffDef').filter(({ span }) => !inGroups.has(span.start));
  return [
    ...groups.map((group): Edit => {
      const { span } = group;
      const definitions = descendantsNamed(group, 'staffDef');
      const first = definitions.map((each) => nameless(each.span)).join('');
      const second = definitions.map((each) => renamed(text, each, seconds)).join('');
      const put = `<staffGrp bar.thru="false">${braced(first, harps[0]!)}${braced(second, harps[1]!)}</staffGrp>`;
      return { start: span.start, end: span.end, put };
    }),
    ...changes.map((each) => insertAt(each.span.end, renamed(text, each, seconds))),
  ];
};

const labelsOf = ({ children }: XmlElement): readonly XmlElement[] =>
  children.filter(({ name }) => name === 'label' || name === 'labelAbbr');

const renamed = (text: string, element: XmlElement, seconds: ReadonlyMap<string, string>): string =>
  editSlices(text, [
    ...renameEdits(text, element, seconds),
    ...labelsOf(element).map(({ span }) => cut(span)),
  ])(element.span);

const braced = (staves: string, { name }: HarpPart): string =>
  `<staffGrp symbol="brace" bar.thru="true"><label>${escapeText(name)}</label>${staves}</staffGrp>`;
