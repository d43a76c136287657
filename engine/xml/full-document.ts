import { SaxesParser } from 'saxes';
import { fail, ok, type Problem, type Result } from '../problem.ts';
import { ReadElement } from './element.ts';
import { localName } from './name-book.ts';
import { isBlank } from './plain-text.ts';
import { NO_ATTRIBUTES, type XmlElement } from './tree.ts';

/** Reads any well-formed document, and says of any other what is wrong: what `readPlainDocument` leaves. */
export const parseFully = (text: string, limits: TreeLimits): Result<XmlElement> => {
  try {
    return ok(new TreeBuilder(text, limits).build());
  } catch (thrown) {
    if (thrown instanceof ParseFailure) return fail(thrown.problem);
    throw thrown;
  }
};

interface TreeLimits {
  readonly depth: number;
  readonly elements: number;
}

class ParseFailure extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.code);
    this.problem = problem;
  }
}

class TreeBuilder {
  readonly #text: string;
  readonly #limits: TreeLimits;
  readonly #parser = new SaxesParser({ position: false });
  readonly #open: ReadElement[] = [];
  /** Read elements whose parents are open: each parent takes its own in a list of just their number when it ends. */
  readonly #waiting: XmlElement[] = [];
  /** For each open element how many waited when it began. */
  readonly #waitingBefore: number[] = [];
  #elements = 0;

  constructor(text: string, limits: TreeLimits) {
    this.#text = text;
    this.#limits = limits;
  }

  build(): XmlElement {
    const parser = this.#parser;
    parser.on('error', (error) => {
      throw new ParseFailure(problemOf(error, parser.line, parser.column + 1));
    });
    parser.on('opentagstart', (tag) => this.#begin(tag.name));
    // Objects of our own: the parser's are slow to read and several times as large.
    parser.on('attribute', ({ name, value }) => this.#addAttribute(name, value));
    parser.on('opentag', () => {
      this.#open.at(-1)!.innerStart = parser.position;
    });
    parser.on('text', (chunk) => this.#addText(chunk));
    parser.on('cdata', (chunk) => this.#addText(chunk));
    parser.on('closetag', (tag) => this.#end(tag.isSelfClosing));
    parser.write(this.#text).close();
    return this.#waiting[0]!;
  }

  #begin(name: string): void {
    this.#elements += 1;
    this.#check('elements', this.#elements);
    this.#check('depth', this.#open.length + 1);
    const start = this.#text.lastIndexOf('<', this.#parser.position - 1);
    this.#open.push(new ReadElement(localName(name), start, null));
    this.#waitingBefore.push(this.#waiting.length);
  }

  #check(what: 'elements' | 'depth', found: number): void {
    const limit = this.#limits[what];
    if (found > limit) throw new ParseFailure({ code: 'limit-exceeded', what, limit, found });
  }

  #addAttribute(name: string, value: string): void {
    const element = this.#open.at(-1)!;
    if (element.attributes === NO_ATTRIBUTES) element.knownAttributes = { [name]: value };
    else (element.attributes as Record<string, string>)[name] = value;
  }

  #addText(chunk: string): void {
    const element = this.#open.at(-1);
    if (element !== undefined && !isBlank(chunk)) element.knownText += chunk;
  }

  #end(isSelfClosing: boolean): void {
    const element = this.#open.pop()!;
    element.end = this.#parser.position;
    element.innerEnd = isSelfClosing ? element.end : this.#text.lastIndexOf('<', element.end - 1);
    const before = this.#waitingBefore.pop()!;
    if (this.#waiting.length > before) element.children = this.#waiting.splice(before);
    this.#waiting.push(element);
  }
}

const problemOf = (error: Error, line: number, column: number): Problem => {
  const message = error.message.replace(/^\d+:\d+:\s*/, '').replace(/\.$/, '');
  return /undefined entity/i.test(message)
    ? { code: 'entity-refused', entity: 'in the document', line, column }
    : { code: 'malformed-xml', message, line, column };
};
