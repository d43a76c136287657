/** A placeholder as laid out: Verovio writes it as a group of our id with one line of text. */
const PLACEHOLDER =
  /<g id="(marking-\d+)" class="harm">\s*<text x="(-?[\d.]+)" y="(-?[\d.]+)"[\s\S]*?<\/text>\s*<\/g>/g;

/** Where a placeholder's text was put, in SVG units. */
export interface PlacedPlaceholder {
  readonly id: string;
  readonly x: number;
  readonly y: number;
}

/**
 * A laid-out page with each placeholder replaced by its drawing.
 *
 * @param draw gives the group that takes the placeholder's place
 * @returns the page and the ids of the markings drawn on it, in order
 */
export const replacePlaceholders = (
  page: string,
  draw: (placeholder: PlacedPlaceholder) => string,
): { readonly page: string; readonly drawn: readonly string[] } => {
  const drawn: string[] = [];
  const replaced = page.replace(PLACEHOLDER, (_, id: string, x: string, y: string) => {
    drawn.push(id);
    return draw({ id, x: Number(x), y: Number(y) });
  });
  return { page: replaced, drawn };
};
