import { childrenNamed, descendantsNamed, firstChild, type XmlElement } from '../../xml/tree.ts';
import type { Titles } from '../model/score.ts';
import { withSourceNote } from '../source-note.ts';
import { usableTitle } from '../usable-title.ts';
import { wordsOf } from './text.ts';

const SUBORDINATE: ReadonlySet<string | undefined> = new Set(['subordinate', 'subtitle', 'sub']);

/** A catalogue joins a subtitle to its title by a sign. */
const JOINING = /^[\s:;,/–—]+/u;

/**
 * Title, subtitle, composer and arranger from the file description (MEI 5.1, titleStmt; `role="creator"` as in MEI 3
 * samples), the rights from what it says of the availability (pubStmt).
 */
export const readTitles = (mei: XmlElement, source: string): Titles => {
  const head = firstChild(mei, 'meiHead');
  const rights = rightsIn(head, source);
  const statement = head && descendantsNamed(head, 'titleStmt')[0];
  if (statement === undefined) return { title: '', subtitle: '', composer: '', arranger: '', rights };
  const titles = childrenNamed(statement, 'title');
  const main = titles.find((each) => each.attributes.type === 'main') ?? titles[0];
  const subtitle =
    titles.find((each) => SUBORDINATE.has(each.attributes.type)) ??
    (main && childrenNamed(main, 'titlePart').find((each) => SUBORDINATE.has(each.attributes.type)));
  const nameOf = (element: string, roles: readonly string[]): string => {
    const found =
      firstChild(statement, element) ??
      descendantsNamed(statement, 'persName').find((each) =>
        roles.includes(each.attributes.role?.toLowerCase() ?? ''),
      );
    return found === undefined ? '' : wordsOf(found, source);
  };
  return withSourceNote({
    title: main === undefined ? '' : usableTitle(wordsOf(main, source, 'titlePart')),
    subtitle: subtitle === undefined ? '' : wordsOf(subtitle, source).replace(JOINING, ''),
    composer: nameOf('composer', ['composer', 'creator', 'cmp']),
    arranger: nameOf('arranger', ['arranger', 'arr']),
    rights,
  });
};

/** Of the file itself: that of the sources it was made from stands in their own descriptions. */
const rightsIn = (head: XmlElement | undefined, source: string): string => {
  const file = head && firstChild(head, 'fileDesc');
  const publication = file && firstChild(file, 'pubStmt');
  const availability = publication && firstChild(publication, 'availability');
  return availability === undefined ? '' : wordsOf(availability, source);
};
