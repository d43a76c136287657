import { parseXml } from '../../engine/xml/parse-xml.ts';
import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';

/** A page as elements; fails where it is no XML. */
export const treeOf = (page: string): XmlElement => {
  const parsed = parseXml(page);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problem));
  return parsed.value;
};

/** The groups of a page that bear a class. */
export const groupsOf = (page: string, name: string): XmlElement[] =>
  descendantsNamed(treeOf(page), 'g').filter(({ attributes }) =>
    (attributes.class ?? '').split(' ').includes(name),
  );
