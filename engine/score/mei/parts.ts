import { descendantsNamed, firstChild, type XmlElement } from '../../xml/tree.ts';
import type { PartCandidate } from '../harp-choice.ts';
import { staffDefsIn } from './definitions.ts';
import { contentOf } from './editorial.ts';
import type { ReadLog } from './log.ts';
import { wordsOf } from './text.ts';
import { readInteger, xmlId } from './values.ts';

/** A part of the score: what is known of it, and the `n` of each of its staves from the top. */
export interface MeiPart {
  readonly candidate: PartCandidate;
  readonly staves: readonly string[];
}

/** The part as it stands among the definitions, before its notes are counted. */
interface Player {
  /** The group or staff that names it. */
  readonly element: XmlElement;
  readonly staffDefs: readonly XmlElement[];
}

/**
 * The parts of a score: a group of staves that one player reads, or a staff by itself.
 *
 * MEI has no element for a player's part within a score, so a group counts as one where it is braced, where it is
 * named or given an instrument as a whole while its staves are not, or where it is two staves without names or symbol;
 * in a brace with several names a staff without one belongs to the named staff above it (common practice, no source).
 */
export const findParts = (score: XmlElement, source: string, log: ReadLog): readonly MeiPart[] => {
  const definition = contentOf(score, log).find((each) => each.name === 'scoreDef');
  if (definition === undefined) return [];
  const counts = countNotes(score);
  const taken = new Set<string>();
  return playersIn(definition, log).map((player) => {
    const staves = player.staffDefs.map((each) => each.attributes.n?.trim() ?? '');
    const notes = staves.reduce((sum, n) => sum + (counts.get(n) ?? 0), 0);
    const wanted = xmlId(player.element) ?? `staff-${staves[0]}`;
    const id = taken.has(wanted) ? `staff-${staves[0]}` : wanted;
    taken.add(id);
    const words = (): readonly string[] =>
      elementsAt(score, 'dir', staves).map((element) => wordsOf(element, source));
    const hasDiagram = (): boolean => elementsAt(score, 'harpPedal', staves).length > 0;
    return {
      staves,
      candidate: { id, staves: staves.length, notes, words, hasDiagram, ...describe(player, source, log) },
    };
  });
};

const playersIn = (group: XmlElement, log: ReadLog): readonly Player[] =>
  contentOf(group, log).flatMap((each) => {
    if (each.name === 'staffDef') return [{ element: each, staffDefs: [each] }];
    if (each.name !== 'staffGrp') return [];
    if (isOnePlayer(each, log)) return [{ element: each, staffDefs: staffDefsIn(each, log) }];
    const players = playersIn(each, log);
    return isBraced(each) ? joinUnnamed(players) : players;
  });

/** Gives each staff without a name to the named one above it, and those above all names to the first. */
const joinUnnamed = (players: readonly Player[]): readonly Player[] => {
  const isUnnamed = ({ element, staffDefs }: Player): boolean =>
    element === staffDefs[0] && !isNamed(element);
  const joined: Player[] = [];
  let leading: readonly XmlElement[] = [];
  for (const player of players) {
    const above = joined.at(-1);
    if (!isUnnamed(player)) {
      joined.push({ element: player.element, staffDefs: [...leading, ...player.staffDefs] });
      leading = [];
    } else if (above === undefined) leading = [...leading, ...player.staffDefs];
    else joined[joined.length - 1] = { ...above, staffDefs: [...above.staffDefs, ...player.staffDefs] };
  }
  return joined;
};

/** A label without words names nothing. */
const isNamed = (element: XmlElement): boolean => {
  const label = firstChild(element, 'label');
  return (element.attributes.label ?? '').trim() !== '' || (label !== undefined && !isBlank(label));
};

const isBlank = ({ text, children }: XmlElement): boolean => text.trim() === '' && children.every(isBlank);

const isBraced = (group: XmlElement): boolean => symbolOf(group) === 'brace';

const symbolOf = (group: XmlElement): string | undefined =>
  group.attributes.symbol ?? firstChild(group, 'grpSym')?.attributes.symbol;

const isGiven = (element: XmlElement): boolean =>
  isNamed(element) || firstChild(element, 'instrDef') !== undefined;

const isOnePlayer = (group: XmlElement, log: ReadLog): boolean => {
  const staffDefs = staffDefsIn(group, log);
  const named = staffDefs.filter(isNamed).length;
  if (staffDefs.length === 0) return false;
  if (isBraced(group)) return isGiven(group) || named < 2;
  const innermost = staffDefs.every((each) => group.children.includes(each));
  if (symbolOf(group) === undefined && named === 0 && staffDefs.length === 2 && innermost) return true;
  return isGiven(group) && named === 0;
};

/** As the words of an element are read. */
const onOneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();

const describe = (
  { element, staffDefs }: Player,
  source: string,
  log: ReadLog,
): Pick<PartCandidate, 'name' | 'abbreviation' | 'sounds' | 'midiProgram'> => {
  const places = [...new Set([element, ...staffDefs])];
  const textOf = (name: string, attribute: string): string =>
    places
      .map((each) => {
        const label = firstChild(each, name);
        return label === undefined ? onOneLine(each.attributes[attribute] ?? '') : wordsOf(label, source);
      })
      .find((text) => text !== '') ?? '';
  const instruments = places.flatMap((each) => descendantsNamed(each, 'instrDef'));
  const programs = instruments.flatMap((each) => readInteger(each, 'midi.instrnum', [0, 127], log) ?? []);
  return {
    name: textOf('label', 'label'),
    abbreviation: textOf('labelAbbr', 'label.abbr'),
    sounds: [...new Set(instruments.flatMap((each) => each.attributes['midi.instrname']?.trim() ?? []))],
    midiProgram: programs[0] === undefined ? null : programs[0] + 1,
  };
};

/** What stands at some of the staves. */
const elementsAt = (score: XmlElement, name: string, staves: readonly string[]): readonly XmlElement[] =>
  descendantsNamed(score, name).filter(({ attributes }) =>
    attributes.staff
      ?.trim()
      .split(/\s+/u)
      .some((n) => staves.includes(n)),
  );

/** Notes of each staff by its `n`, cross-staff notes with the staff they are written in. */
const countNotes = (score: XmlElement): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>();
  const visit = (element: XmlElement, staff: string | undefined): void => {
    const inside = element.name === 'staff' ? element.attributes.n?.trim() : staff;
    if (element.name === 'note' && inside !== undefined) counts.set(inside, (counts.get(inside) ?? 0) + 1);
    for (const each of element.children) visit(each, inside);
  };
  visit(score, undefined);
  return counts;
};
