/** Glyphs are named by their code points and something made up; who draws the pages names them anew. */
const GLYPH = /^([0-9A-F]{4,5})-/;
const GLYPH_USE = / xlink:href="#([0-9A-F]{4,5})-[^"]*"/g;

/** An id with the class after it, which tells words that may be moved and the heading: these need one. */
const ID = / id="([^"]*)"( class="(?:tempo|dir|reh|pgHead)[ "])?/g;

/** What began in an earlier line has no id but a class that tells it. */
const EARLIER = / id-([^" ]+)(?= spanning")/g;

/** Where a section ends; it draws nothing. */
const MILESTONE_END = /<g id="[^"]*" class="(?:system|page)MilestoneEnd [^"]*"\s*\/>/g;

/**
 * Takes away what the layout named by chance, and gives names by their order where names are needed, so that a line is
 * the same text with whichever others it was laid out. Linear in the drawing.
 *
 * @param known ids of the document, which stay
 * @param prefix unique among the lines
 */
export const ownIds = (svg: string, known: ReadonlySet<string>, prefix: string): string => {
  let count = 0;
  const rename = (whole: string, id: string, named = ''): string => {
    if (known.has(id)) return whole;
    const glyph = GLYPH.exec(id);
    if (glyph !== null) return ` id="${glyph[1]}-glyph"`;
    if (named === '') return '';
    count += 1;
    return ` id="${prefix}-${count}"${named}`;
  };
  return svg
    .replace(MILESTONE_END, '')
    .replace(ID, rename)
    .replace(GLYPH_USE, ' xlink:href="#$1-glyph"')
    .replace(EARLIER, (whole, id: string) => (known.has(id) ? whole : ''));
};
