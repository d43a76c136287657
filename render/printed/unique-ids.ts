/** A page with ids. */
interface Page {
  /** An SVG document. */
  readonly svg: string;
}

/**
 * Pages whose ids are unique among all of them, so that they can be shown in one document: an id that an earlier page
 * has, such as that of a glyph which both draw, gets the page's number, and what refers to it follows.
 */
export const makeIdsUnique = (pages: readonly string[]): string[] =>
  pages.map((svg) => ({ svg })).map(idSeparator());

/** The same for pages that come one after the other. */
export const idSeparator = (): ((page: Page, index: number) => string) => {
  const taken = new Set<string>();
  return (page, index) => {
    const ids = idsOf(page);
    const doubled = new Set(ids.filter((id) => taken.has(id)));
    for (const id of ids) taken.add(id);
    if (doubled.size === 0) return page.svg;
    return extendIds(page.svg, `-page-${index + 1}`, (id) => doubled.has(id));
  };
};

/** A drawing in which ids end otherwise, and what refers to them follows. */
export const extendIds = (
  svg: string,
  ending: string,
  isMeant: (id: string) => boolean = () => true,
): string =>
  svg.replace(/ (id|href|xlink:href)="(#?)([^"]*)"/g, (whole, name: string, hash: string, id: string) =>
    isMeant(id) ? ` ${name}="${hash}${id}${ending}"` : whole,
  );

const KNOWN = new WeakMap<Page, readonly string[]>();

const idsOf = (page: Page): readonly string[] => {
  const ids = KNOWN.get(page) ?? [...new Set([...page.svg.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id!))];
  KNOWN.set(page, ids);
  return ids;
};
