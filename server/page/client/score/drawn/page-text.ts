/** A group of a drawn page, with what its tag says. */
export interface PageGroup {
  readonly id: string;
  /** The value of an attribute; empty where the tag has none. */
  readonly attribute: (name: string) => string;
}

/**
 * The groups of a page that a pattern finds, in their order.
 *
 * @param pattern global; its first part is the id, its second, if any, the rest of the tag
 */
export const listGroups = (svg: string, pattern: RegExp): readonly PageGroup[] =>
  [...svg.matchAll(pattern)].map(
    ([, id, tag]): PageGroup => ({
      id: id!,
      attribute: (name) => new RegExp(` ${name}="([^"]*)"`).exec(tag ?? '')?.[1] ?? '',
    }),
  );

const BAR = /<g id="([^"]+)" class="measure"/g;

/** Ids of the bars on a page. */
export const listBarIds = (svg: string): readonly string[] => listGroups(svg, BAR).map(({ id }) => id);

/**
 * Tells on which page, from 1, each bar stands.
 *
 * @param pages ids of the bars of each page
 */
export const placeBars = (
  pages: readonly (readonly string[])[],
  barIds: readonly string[],
): ((bar: number) => number) => {
  const drawn = new Map(pages.flatMap((ids, i) => ids.map((id) => [id, i + 1])));
  let latest = 1;
  // Bars of rest that are joined into one sign are where the sign is.
  const pageByBar = barIds.map((id) => {
    latest = drawn.get(id) ?? latest;
    return latest;
  });
  return (bar) => pageByBar[bar] ?? 1;
};
