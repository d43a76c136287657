import { child, childrenNamed, descendantsNamed, type XmlElement } from '../../xml/tree.ts';
import type { Titles } from '../model.ts';
import { usableTitle } from '../usable-title.ts';
import { wordsOf } from './text.ts';

const SUBORDINATE: ReadonlySet<string | undefined> = new Set(['subordinate', 'subtitle', 'sub']);

/** Title, subtitle, composer and arranger from the file description (MEI 5.1, titleStmt; `role="creator"` as in MEI 3 samples). */
export const readTitles = (mei: XmlElement, source: string): Titles => {
  const head = child(mei, 'meiHead');
  const statement = head && descendantsNamed(head, 'titleStmt')[0];
  if (statement === undefined) return { title: '', subtitle: '', composer: '', arranger: '' };
  const titles = childrenNamed(statement, 'title');
  const main = titles.find((each) => each.attributes.type === 'main') ?? titles[0];
  const subtitle =
    titles.find((each) => SUBORDINATE.has(each.attributes.type)) ??
    (main && childrenNamed(main, 'titlePart').find((each) => SUBORDINATE.has(each.attributes.type)));
  const nameOf = (element: string, roles: readonly string[]): string => {
    const found =
      child(statement, element) ??
      descendantsNamed(statement, 'persName').find((each) =>
        roles.includes(each.attributes.role?.toLowerCase() ?? ''),
      );
    return found === undefined ? '' : wordsOf(found, source);
  };
  return {
    title: main === undefined ? '' : usableTitle(wordsOf(main, source, 'titlePart')),
    subtitle: subtitle === undefined ? '' : wordsOf(subtitle, source),
    composer: nameOf('composer', ['composer', 'creator', 'cmp']),
    arranger: nameOf('arranger', ['arranger', 'arr']),
  };
};
