/** Accents of ABC text strings as combining marks (ABC 2.1, 8.2; table from memory). */
const ACCENTS: Readonly<Record<string, string>> = {
  '`': '\u0300',
  "'": '\u0301',
  '^': '\u0302',
  '~': '\u0303',
  '"': '\u0308',
  c: '\u0327',
  u: '\u0306',
  v: '\u030C',
  H: '\u030B',
};

const LIGATURES: Readonly<Record<string, string>> = {
  aa: 'å',
  AA: 'Å',
  ae: 'æ',
  AE: 'Æ',
  oe: 'œ',
  OE: 'Œ',
  ss: 'ß',
  '/o': 'ø',
  '/O': 'Ø',
};

const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  nbsp: ' ',
  copy: '©',
};

/** HTML entities of accented letters begin with the letter: `&eacute;`. */
const ENTITY_ACCENTS: Readonly<Record<string, string>> = {
  grave: '\u0300',
  acute: '\u0301',
  circ: '\u0302',
  tilde: '\u0303',
  uml: '\u0308',
  cedil: '\u0327',
  ring: '\u030A',
};

const ESCAPE =
  /\\u([0-9a-fA-F]{4})|\\(aa|AA|ae|AE|oe|OE|ss|\/o|\/O)|\\([`'^~"cuvH])([A-Za-z])|&([A-Za-z])(grave|acute|circ|tilde|uml|cedil|ring);|&(amp|lt|gt|quot|nbsp|copy);|\\([%&\\])/gu;

/** A text string of ABC with its accents as letters: `\'e`, `&eacute;` and `\u00e9` are all é. */
export const readAbcText = (text: string): string =>
  text
    .replace(
      ESCAPE,
      (_all, code, ligature, accent, letter, base, mark, entity, plain): string =>
        (code !== undefined && String.fromCharCode(Number.parseInt(code, 16))) ||
        (ligature !== undefined && LIGATURES[ligature]) ||
        (accent !== undefined && `${letter}${ACCENTS[accent]}`) ||
        (base !== undefined && `${base}${ENTITY_ACCENTS[mark]}`) ||
        (entity !== undefined && ENTITIES[entity]) ||
        plain,
    )
    .normalize('NFC')
    .replace(/[\p{Cc}\uFFFE\uFFFF]/gu, '')
    .trim();
