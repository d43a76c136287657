import { SaxesParser } from 'saxes';
import { ok, type Problem, type Result, refuse } from '../problem.ts';

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

export interface XmlLimits {
  readonly depth: number;
  readonly elements: number;
}

/** Deep enough for any real score (MEI nests about 25 levels); large enough for a symphony movement in full score. */
export const XML_LIMITS: XmlLimits = { depth: 200, elements: 6_000_000 };

/** What an element without attributes has: known by identity, so that whole documents are looked through quickly. */
export const NO_ATTRIBUTES: Readonly<Record<string, string>> = Object.freeze({});
const NO_CHILDREN: readonly XmlElement[] = Object.freeze([]);

/** An element while it is read and after: spans are made when asked for, since a score has a million elements. */
class ReadElement implements XmlElement {
  name = '';
  attributes: Readonly<Record<string, string>> = NO_ATTRIBUTES;
  children: readonly XmlElement[] = NO_CHILDREN;
  text = '';
  /** How many elements waited for their parent when this one began. */
  readonly waitingBefore: number;
  innerStart = 0;
  innerEnd = 0;
  end = 0;
  readonly start: number;

  constructor(start: number, waitingBefore: number) {
    this.start = start;
    this.waitingBefore = waitingBefore;
  }

  get span(): Span {
    return { start: this.start, end: this.end };
  }

  get inner(): Span {
    return { start: this.innerStart, end: this.innerEnd };
  }
}

class Refused extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.code);
    this.problem = problem;
  }
}

/** Gives equal names as one string: a score has a million elements of a hundred names, and compares them often. */
const startNameBook = (): ((name: string) => string) => {
  const known = new Map<string, string>();
  return (name) => {
    const found = known.get(name);
    if (found !== undefined) return found;
    const local = name.slice(name.indexOf(':') + 1);
    known.set(name, local);
    return local;
  };
};

/**
 * Parses a whole document into elements that know their place in `text`.
 *
 * DOCTYPEs are passed over and nothing they name is fetched; entities other than XML's own five are refused, so
 * that no text expands. Linear time and memory; parsing stops at the first broken rule or passed limit.
 *
 * @returns the root element, or `malformed-xml`, `entity-refused` or `limit-exceeded`
 */
export const parseXml = (text: string, limits: XmlLimits = XML_LIMITS): Result<XmlElement> => {
  try {
    return ok(buildTree(text, limits));
  } catch (thrown) {
    if (thrown instanceof Refused) return refuse(thrown.problem);
    throw thrown;
  }
};

const buildTree = (text: string, limits: XmlLimits): XmlElement => {
  const parser = new SaxesParser({ position: false });
  const open: ReadElement[] = [];
  /** Read elements whose parents are open: each parent takes its own in a list of just their number when it ends. */
  const waiting: XmlElement[] = [];
  const localName = startNameBook();
  let root: XmlElement | undefined;
  let elements = 0;

  parser.on('error', (error) => {
    throw new Refused(problemOf(error, parser.line, parser.column + 1));
  });
  parser.on('opentagstart', () => {
    elements += 1;
    if (elements > limits.elements) {
      throw new Refused({
        code: 'limit-exceeded',
        what: 'elements',
        limit: limits.elements,
        found: elements,
      });
    }
    if (open.length >= limits.depth) {
      throw new Refused({
        code: 'limit-exceeded',
        what: 'depth',
        limit: limits.depth,
        found: open.length + 1,
      });
    }
    open.push(new ReadElement(text.lastIndexOf('<', parser.position - 1), waiting.length));
  });
  // Objects of our own: the parser's are slow to read and several times as large.
  parser.on('attribute', ({ name, value }) => {
    const element = open.at(-1)!;
    if (element.attributes === NO_ATTRIBUTES) element.attributes = { [name]: value };
    else (element.attributes as Record<string, string>)[name] = value;
  });
  parser.on('opentag', (tag) => {
    const element = open.at(-1)!;
    element.name = localName(tag.name);
    element.innerStart = parser.position;
  });
  const addText = (chunk: string): void => {
    const element = open.at(-1);
    if (element !== undefined && !isBlank(chunk)) element.text += chunk;
  };
  parser.on('text', addText);
  parser.on('cdata', addText);
  parser.on('closetag', (tag) => {
    const element = open.pop()!;
    element.end = parser.position;
    element.innerEnd = tag.isSelfClosing ? element.end : text.lastIndexOf('<', element.end - 1);
    if (waiting.length > element.waitingBefore) element.children = waiting.splice(element.waitingBefore);
    if (open.length === 0) root = element;
    else waiting.push(element);
  });
  parser.write(text).close();
  return root!;
};

/** Indentation between elements says nothing and is not kept. */
const isBlank = (chunk: string): boolean => {
  for (let i = 0; i < chunk.length; i += 1) if (chunk.charCodeAt(i) > 32) return false;
  return true;
};

/** Line and column, both from 1, of a place in the text: counted only when a message needs them. */
export const placeAt = (text: string, offset: number): { readonly line: number; readonly column: number } => {
  const before = text.slice(0, offset);
  const lineStart = Math.max(before.lastIndexOf('\n'), before.lastIndexOf('\r')) + 1;
  return { line: before.split(/\r\n|\r|\n/).length, column: offset - lineStart + 1 };
};

const problemOf = (error: Error, line: number, column: number): Problem => {
  const message = error.message.replace(/^\d+:\d+:\s*/, '').replace(/\.$/, '');
  return /undefined entity/i.test(message)
    ? { code: 'entity-refused', entity: 'in the document', line, column }
    : { code: 'malformed-xml', message, line, column };
};

export const child = ({ children }: XmlElement, name: string): XmlElement | undefined => {
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
  child(element, name)?.text.trim();

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
