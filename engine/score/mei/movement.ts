import { fail, ok, type Result } from '../../problem.ts';
import { childrenNamed, firstChild, type XmlElement } from '../../xml/tree.ts';
import type { SourceMovement } from '../model/source.ts';
import { wordsOf } from './text.ts';

/**
 * Versions of MEI that are read; `5.0-dev`, `5.1+CMN` and the like count as the version they start with. `6.0-dev`, as
 * Verovio 6 writes it, encodes music as 5.1 does.
 */
const READ_VERSIONS = /^(2012|2013|[345]\.|[345]$|6\.0-dev)/;

const DIVISIONS = ['music', 'body', 'mdiv'] as const;

/** Refuses versions of MEI whose music is encoded in another way. */
export const checkVersion = (mei: XmlElement): Result<null> => {
  const version = mei.attributes.meiversion?.trim() ?? '';
  if (version === '' || READ_VERSIONS.test(version)) return ok(null);
  return fail({
    code: 'unsupported',
    feature: `MEI ${version}`,
    advice: 'Convert the file to MEI 3, 4 or 5.',
  });
};

/** A document of which one movement is read, and what the user should know of the others. */
export interface ChosenMovement {
  /** The document without its other movements; what stays knows its place in the whole text. */
  readonly root: XmlElement;
  /** Null where there is one alone. */
  readonly movement: SourceMovement | null;
  readonly remark: string | null;
}

/**
 * Chooses the movement to read: the one that is wanted, else the first that has a score.
 *
 * @param wanted its place among them, from 1, or its title
 * @returns `unknown-movement` where it is not exactly one of them
 */
export const chooseMovement = (
  mei: XmlElement,
  source: string,
  wanted: string | undefined,
): Result<ChosenMovement> => {
  const movements = movementsIn(mei);
  const titles = movements.map((each) => titleOf(each, source));
  const names = titles.map((title, index) => (title === '' ? `${index + 1}` : `${index + 1} (${title})`));
  const found = wanted === undefined ? [0] : indicesOf(wanted.trim(), titles);
  const [index] = found;
  if (found.length !== 1) return fail({ code: 'unknown-movement', wanted: wanted ?? '', movements: names });
  if (movements.length < 2) return ok({ root: mei, movement: null, remark: null });
  const others = movements.filter((_, each) => each !== index);
  const told = `The file has ${movements.length} movements, and only ${wanted === undefined ? 'the first' : names[index!]!} is read.`;
  const left = names.filter((_, each) => each !== index).join(', ');
  return ok({
    root: without(mei, new Set(others)),
    movement: {
      number: index! + 1,
      title: titles[index!]!,
      titles,
      others: others.map(({ span }) => span),
    },
    remark: `${told} The option “movement” chooses another: ${left}.`,
  });
};

const indicesOf = (wanted: string, titles: readonly string[]): readonly number[] => {
  const place = Number(wanted);
  if (/^\d{1,4}$/.test(wanted)) return titles[place - 1] === undefined ? [] : [place - 1];
  return titles.flatMap((title, index) => (title.toLowerCase() === wanted.toLowerCase() ? [index] : []));
};

/** The tree without some elements; branches that hold none of them stay as they are. */
const without = (element: XmlElement, left: ReadonlySet<XmlElement>): XmlElement => {
  if (!BRANCHES.has(element.name)) return element;
  // What the parser gives are no plain objects: spread out they lose their places.
  const { name, attributes, text, span, inner, children } = element;
  const kept = children.filter((each) => !left.has(each)).map((each) => without(each, left));
  return { name, attributes, text, span, inner, children: kept };
};

const BRANCHES: ReadonlySet<string> = new Set(['mei', 'group', ...DIVISIONS]);

/**
 * The score to read.
 *
 * @returns the `score` (or lone `part`) element, `no-parts` where there is none, or `unsupported`
 */
export const findMovement = (mei: XmlElement): Result<XmlElement> => {
  const [first] = movementsIn(mei);
  if (first === undefined) return fail({ code: 'no-parts' });
  const score = firstChild(first, 'score');
  if (score !== undefined) return ok(score);
  const parts = childrenNamed(firstChild(first, 'parts')!, 'part');
  if (parts.length === 1) return ok(parts[0]!);
  return fail({
    code: 'unsupported',
    feature: 'A score kept as separate parts (the element “parts”)',
    advice: 'Export the harp part alone, or a full score.',
  });
};

const movementsIn = (element: XmlElement): readonly XmlElement[] =>
  element.children.flatMap((each) => {
    if (each.name === 'mdiv' && (firstChild(each, 'score') ?? firstChild(each, 'parts')) !== undefined)
      return [each];
    return (DIVISIONS as readonly string[]).includes(each.name) || each.name === 'group'
      ? movementsIn(each)
      : [];
  });

const titleOf = (movement: XmlElement, source: string): string => {
  const label = movement.attributes.label?.trim() || movement.attributes.n?.trim();
  const head = firstChild(movement, 'label');
  return head === undefined ? (label ?? '') : wordsOf(head, source);
};
