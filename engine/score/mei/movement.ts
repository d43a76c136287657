import { fail, ok, type Result } from '../../problem.ts';
import { childrenNamed, firstChild, type XmlElement } from '../../xml/tree.ts';
import type { ReadLog } from './log.ts';
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

/**
 * The score to read: the first movement that has one.
 *
 * @returns the `score` (or lone `part`) element, `no-parts` where there is none, or `unsupported`
 */
export const findMovement = (mei: XmlElement, source: string, log: ReadLog): Result<XmlElement> => {
  const movements = movementsIn(mei);
  const [first, ...others] = movements;
  if (first === undefined) return fail({ code: 'no-parts' });
  if (others.length > 0) {
    const names = others.map((each, index) => titleOf(each, source) || `movement ${index + 2}`);
    log.remark(
      'movement-chosen',
      '',
      `The file has ${movements.length} movements, and only the first is read. The others are: ${names.join(', ')}.`,
    );
  }
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
