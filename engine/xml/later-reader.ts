import type { ElementReader } from './element.ts';
import { decodeEntities } from './entities.ts';
import { hashLetter, type NameBook } from './name-book.ts';
import { continuesName, isBlank, skipSpace, startsName, withoutReturns } from './plain-text.ts';
import { NO_ATTRIBUTES } from './tree.ts';

/** Reads what was only checked at first. */
export class LaterReader implements ElementReader {
  readonly #text: string;
  readonly #names: NameBook;

  constructor(text: string, names: NameBook) {
    this.#text = text;
    this.#names = names;
  }

  textOf(start: number, end: number): string {
    const text = decodeEntities(withoutReturns(this.#text.slice(start, end)));
    return isBlank(text) ? '' : text;
  }

  attributesOf(start: number, end: number): Readonly<Record<string, string>> {
    const text = this.#text;
    const attributes: Record<string, string> = {};
    let at = start + 1;
    while (continuesName(text.charCodeAt(at))) at += 1;
    for (;;) {
      at = skipSpace(text, at);
      if (!startsName(text.charCodeAt(at))) break;
      const nameStart = at;
      let hash = 0;
      for (let code = text.charCodeAt(at); continuesName(code); code = text.charCodeAt(at)) {
        hash = hashLetter(hash, code);
        at += 1;
      }
      const { full } = this.#names.nameAt(nameStart, at, hash);
      const quoteAt = skipSpace(text, skipSpace(text, at) + 1);
      const valueEnd = text.indexOf(text[quoteAt]!, quoteAt + 1);
      attributes[full] = attributeValue(text.slice(quoteAt + 1, valueEnd));
      at = valueEnd + 1;
    }
    return at > end ? NO_ATTRIBUTES : attributes;
  }
}

/** White space in a value counts as a space, a line's end as one (XML 1.0, 2.11 and 3.3.3). */
const attributeValue = (written: string): string =>
  decodeEntities(/[\t\n\r]/u.test(written) ? written.replace(/\r\n|[\t\n\r]/gu, ' ') : written);
