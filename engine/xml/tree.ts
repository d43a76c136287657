/** A stretch of the source text: string indices, `end` exclusive. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** An element with its place in the source text, so that text can be inserted without writing the file anew. */
export interface XmlElement {
  /** Name without a namespace prefix. */
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  /** The character data directly inside this element, joined; stretches of white space alone are left out. */
  readonly text: string;
  /** From `<` of the start tag to past `>` of the end tag. */
  readonly span: Span;
  /** The content: from past the start tag's `>` to the end tag's `<`; empty for `<name/>`. */
  readonly inner: Span;
}

/** What an element without attributes has: known by identity, so that whole documents are looked through quickly. */
export const NO_ATTRIBUTES: Readonly<Record<string, string>> = Object.freeze({});
/** Not frozen: engines go through lists of one kind more quickly. */
export const NO_CHILDREN: readonly XmlElement[] = [];

/** Line and column, both from 1, of a place in the text: counted only when a message needs them. */
export const lineAndColumnAt = (
  text: string,
  offset: number,
): { readonly line: number; readonly column: number } => {
  const before = text.slice(0, offset);
  const lineStart = Math.max(before.lastIndexOf('\n'), before.lastIndexOf('\r')) + 1;
  return { line: before.split(/\r\n|\r|\n/).length, column: offset - lineStart + 1 };
};

/** The first child element of a name; undefined where there is none. */
export const firstChild = ({ children }: XmlElement, name: string): XmlElement | undefined => {
  for (const each of children) if (each.name === name) return each;
  return undefined;
};

/** Most elements have none: those share one list, since this is asked of every note. */
export const childrenNamed = ({ children }: XmlElement, name: string): readonly XmlElement[] => {
  let found: XmlElement[] | null = null;
  for (const each of children) {
    if (each.name !== name) continue;
    if (found === null) found = [each];
    else found.push(each);
  }
  return found ?? NO_CHILDREN;
};

/** The trimmed text of the first child of that name. */
export const childText = (element: XmlElement, name: string): string | undefined =>
  firstChild(element, name)?.text.trim();

/** All elements below `element`, in document order, that bear one of the names. */
export const descendantsNamed = (element: XmlElement, ...names: readonly string[]): XmlElement[] => {
  const found: XmlElement[] = [];
  const visit = (each: XmlElement): void => {
    if (names.includes(each.name)) found.push(each);
    for (const next of each.children) visit(next);
  };
  for (const next of element.children) visit(next);
  return found;
};
