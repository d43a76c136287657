import { ReadElement } from './element.ts';
import { LaterReader } from './later-reader.ts';
import { hashLetter, type KnownName, NameBook } from './name-book.ts';
import {
  CODE,
  continuesName,
  isSpace,
  NOT_PLAIN,
  passCharacter,
  skipSpace,
  startsName,
} from './plain-text.ts';
import { commentEnd, instructionEnd, rootStart, skipMisc } from './prolog.ts';
import type { XmlElement } from './tree.ts';

/** Elements with more are left to the full parser, since each attribute is compared with those before. */
const MAX_ATTRIBUTES = 64;

/**
 * Reads a document that is written plainly, as scores are: names of ASCII, no CDATA, no declarations of its own, no
 * entities but XML's five and characters by number. It is several times as quick as the full parser, to which it leaves
 * whatever is not certain to be plain and well-formed, so that one of them says what is wrong. Linear time.
 *
 * @returns what the full parser would make of it, or null where that has to read
 */
export const readPlainDocument = (
  text: string,
  limits: { readonly depth: number; readonly elements: number },
): XmlElement | null => {
  const start = rootStart(text);
  return start === NOT_PLAIN ? null : new PlainReader(text, limits).read(start);
};

class PlainReader {
  readonly #text: string;
  readonly #limits: { readonly depth: number; readonly elements: number };
  readonly #names: NameBook;
  readonly #later: LaterReader;
  readonly #open: ReadElement[] = [];
  readonly #openNames: KnownName[] = [];
  /** Read elements whose parents are open, the first `#waitingCount` of the list. */
  readonly #waiting: XmlElement[] = [];
  #waitingCount = 0;
  /** For each open element how many waited when it began. */
  readonly #waitingBefore: number[] = [];
  /** Hashes of the attributes of the start tag that is read. */
  readonly #hashes = new Int32Array(MAX_ATTRIBUTES);
  /** Where the text before the tag that is read begins. */
  #textStart = 0;
  #hasText = false;
  #elements = 0;

  constructor(text: string, limits: { readonly depth: number; readonly elements: number }) {
    this.#text = text;
    this.#limits = limits;
    this.#names = new NameBook(text);
    this.#later = new LaterReader(text, this.#names);
  }

  read(start: number): XmlElement | null {
    let at = this.#readTag(start);
    while (at !== NOT_PLAIN && this.#open.length > 0) {
      at = this.#readText(at);
      if (at !== NOT_PLAIN) at = this.#readTag(at);
    }
    const isWhole = at !== NOT_PLAIN && skipMisc(this.#text, at) === this.#text.length;
    return isWhole ? this.#waiting[0]! : null;
  }

  /** @returns where the tag, comment or instruction that begins at `at` ends */
  #readTag(at: number): number {
    const code = this.#text.charCodeAt(at + 1);
    if (code === CODE.slash) return this.#readEndTag(at);
    if (this.#hasText) this.#keepText(at);
    if (startsName(code)) return this.#readStartTag(at);
    return code === CODE.question ? instructionEnd(this.#text, at) : commentEnd(this.#text, at);
  }

  #readStartTag(start: number): number {
    const text = this.#text;
    let hash = 0;
    let at = start + 1;
    for (let code = text.charCodeAt(at); continuesName(code); code = text.charCodeAt(at)) {
      hash = hashLetter(hash, code);
      at += 1;
    }
    const name = this.#names.nameAt(start + 1, at, hash);
    const end = this.#skipAttributes(at);
    this.#elements += 1;
    if (this.#elements > this.#limits.elements || this.#open.length >= this.#limits.depth) return NOT_PLAIN;
    const element = new ReadElement(name.local, start, this.#later);
    element.innerStart = end;
    // Even the shortest attribute is longer than the end of the tag.
    if (end > at + 2) element.knownAttributes = null;
    this.#open.push(element);
    this.#openNames.push(name);
    this.#waitingBefore.push(this.#waitingCount);
    if (end !== NOT_PLAIN && text.charCodeAt(end - 2) === CODE.slash) this.#close(end, end);
    return end;
  }

  /** @returns where the start tag ends whose name ends at `from` */
  #skipAttributes(from: number): number {
    const text = this.#text;
    let count = 0;
    let at = from;
    for (;;) {
      const code = text.charCodeAt(at);
      if (code === CODE.greater) return at + 1;
      if (code === CODE.slash) return text.charCodeAt(at + 1) === CODE.greater ? at + 2 : NOT_PLAIN;
      if (!isSpace(code)) return NOT_PLAIN;
      at = skipSpace(text, at + 1);
      if (!startsName(text.charCodeAt(at))) continue;
      if (count === MAX_ATTRIBUTES) return NOT_PLAIN;
      at = this.#skipAttribute(at, count);
      if (at === NOT_PLAIN) return NOT_PLAIN;
      count += 1;
    }
  }

  /** @returns where the attribute ends that begins at `from` as the one after `count` others */
  #skipAttribute(from: number, count: number): number {
    const text = this.#text;
    let hash = 0;
    let at = from;
    for (let code = text.charCodeAt(at); continuesName(code); code = text.charCodeAt(at)) {
      hash = hashLetter(hash, code);
      at += 1;
    }
    // An attribute may stand but once; of two that only look alike the full parser knows.
    for (let i = 0; i < count; i += 1) if (this.#hashes[i] === hash) return NOT_PLAIN;
    this.#hashes[count] = hash;
    at = skipSpace(text, at);
    if (text.charCodeAt(at) !== CODE.equals) return NOT_PLAIN;
    at = skipSpace(text, at + 1);
    const quote = text.charCodeAt(at);
    if (quote !== CODE.quote && quote !== CODE.apostrophe) return NOT_PLAIN;
    at += 1;
    for (let code = text.charCodeAt(at); code !== quote; code = text.charCodeAt(at)) {
      at = passCharacter(text, at, code);
      if (code === CODE.less || at === NOT_PLAIN) return NOT_PLAIN;
    }
    return at + 1;
  }

  #readEndTag(start: number): number {
    const text = this.#text;
    const { full } = this.#openNames.at(-1)!;
    if (!text.startsWith(full, start + 2)) return NOT_PLAIN;
    const at = skipSpace(text, start + 2 + full.length);
    if (text.charCodeAt(at) !== CODE.greater) return NOT_PLAIN;
    const element = this.#open.at(-1)!;
    if (this.#hasText) {
      if (this.#textStart === element.innerStart) this.#leaveText(element);
      else this.#keepText(start);
    }
    this.#close(start, at + 1);
    return at + 1;
  }

  /** The element that was opened last ends. */
  #close(innerEnd: number, end: number): void {
    const element = this.#open.pop()!;
    this.#openNames.pop();
    element.innerEnd = innerEnd;
    element.end = end;
    const before = this.#waitingBefore.pop()!;
    if (this.#waitingCount > before) element.children = this.#waiting.slice(before, this.#waitingCount);
    this.#waiting[before] = element;
    this.#waitingCount = before + 1;
  }

  /** @returns where the next tag begins */
  #readText(from: number): number {
    const text = this.#text;
    this.#textStart = from;
    this.#hasText = false;
    let at = from;
    for (let code = text.charCodeAt(at); code !== CODE.less; code = text.charCodeAt(at)) {
      if (code > CODE.space) this.#hasText = true;
      // The end of a CDATA section may not stand in text.
      if (code === CODE.greater && text.startsWith(']]', at - 2)) return NOT_PLAIN;
      at = passCharacter(text, at, code);
      if (at === NOT_PLAIN) return NOT_PLAIN;
    }
    return at;
  }

  /** The element has text alone, which is read when it is asked for. */
  #leaveText(element: ReadElement): void {
    element.knownText = null;
    this.#hasText = false;
  }

  /** Text beside elements or comments is put together as it comes. */
  #keepText(end: number): void {
    const element = this.#open.at(-1)!;
    element.knownText = element.text + this.#later.textOf(this.#textStart, end);
    this.#hasText = false;
  }
}
