import { NO_ATTRIBUTES, type XmlElement } from '../../xml/tree.ts';
import { xmlId } from './values.ts';

/** Names for things of the score: the source's own ids where they are unique, made ones elsewhere. */
export interface Ids {
  /** @param prefix of a made id, which ends in the element's place in the text: `n120` */
  readonly of: (element: XmlElement, prefix: string) => string;
  /** A new id near the wanted one, unlike any other. */
  readonly fresh: (wanted: string) => string;
}

/** Looks through the whole document, so that no made id meets one of the source. */
export const collectIds = (root: XmlElement): Ids => {
  const seen = new Set<string>();
  const twice = new Set<string>();
  const visit = (element: XmlElement): void => {
    const id = element.attributes === NO_ATTRIBUTES ? undefined : xmlId(element);
    if (id !== undefined) (seen.has(id) ? twice : seen).add(id);
    for (const each of element.children) visit(each);
  };
  visit(root);
  const counts = new Map<string, number>();
  const fresh = (wanted: string): string => {
    let id = wanted;
    for (let count = counts.get(wanted) ?? 2; seen.has(id); count += 1) {
      id = `${wanted}-${count}`;
      counts.set(wanted, count + 1);
    }
    seen.add(id);
    return id;
  };
  const given = new Map<XmlElement, string>();
  return {
    fresh,
    of: (element, prefix) => {
      const own = xmlId(element);
      if (own !== undefined && own !== '' && !twice.has(own)) return own;
      const made = given.get(element) ?? fresh(`${prefix}${element.span.start}`);
      given.set(element, made);
      return made;
    },
  };
};
