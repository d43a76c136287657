/** Far more than any options hold; little enough that checking them keeps nobody waiting. */
export const JSON_LIMITS = {
  /** Some 4,000 pins. */
  bytes: 300_000,
  /** The deepest option has four levels. */
  depth: 16,
  values: 40_000,
  /** In one pair of braces; the options of a request are some fifty. */
  names: 1_000,
} as const;

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const COMMA = 0x2c;
const OPENING_BRACE = 0x7b;
const OPENING: readonly number[] = [OPENING_BRACE, 0x5b];
const CLOSING: readonly number[] = [0x7d, 0x5d];

/** Where the string that begins at a place ends, in a text that may be no JSON. */
const endOfString = (text: string, start: number): number => {
  for (let at = start + 1; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) return at;
    if (code === BACKSLASH) at += 1;
  }
  return text.length;
};

/**
 * Looks at the text of options before anything is made of it: what is deeply nested overflows the stack of whoever walks
 * it, and many small values take long to check. One pass over the text.
 *
 * @returns what is too much, as the end of a sentence; null where nothing is
 */
export const findJsonExcess = (text: string): string | null => {
  if (text.length > JSON_LIMITS.bytes) return `its options are longer than ${JSON_LIMITS.bytes} characters`;
  let depth = 0;
  let values = 0;
  /** For each level that is open: the names that may still come, without end in a list. */
  const names = [Number.POSITIVE_INFINITY];
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === QUOTE) at = endOfString(text, at);
    else if (OPENING.includes(code)) {
      depth += 1;
      values += 1;
      names[depth] = code === OPENING_BRACE ? JSON_LIMITS.names : Number.POSITIVE_INFINITY;
    } else if (CLOSING.includes(code)) depth -= 1;
    else if (code === COMMA) {
      values += 1;
      names[depth]! -= 1;
    }
    if (names[depth]! <= 0) return `its options hold more than ${JSON_LIMITS.names} names in one object`;
    if (depth > JSON_LIMITS.depth) return `its options are nested deeper than ${JSON_LIMITS.depth} levels`;
    if (values > JSON_LIMITS.values) return `its options hold more than ${JSON_LIMITS.values} values`;
  }
  return null;
};
