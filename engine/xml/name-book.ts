/** A name as the document writes it, and without its prefix. */
export interface KnownName {
  readonly full: string;
  readonly local: string;
}

const SLOTS = 4096;

/**
 * Gives equal names as one string without cutting each out of the text: a score has a million elements of a hundred
 * names. Each slot remembers the last name with its hash, so that no choice of names makes the search long.
 */
export class NameBook {
  readonly #text: string;
  readonly #slots: (KnownName | undefined)[] = new Array<KnownName | undefined>(SLOTS).fill(undefined);

  constructor(text: string) {
    this.#text = text;
  }

  /** The name that stands from `start` to `end`, of the hash that `hashLetter` gives. */
  nameAt(start: number, end: number, hash: number): KnownName {
    const slot = (hash ^ (hash >>> 12)) & (SLOTS - 1);
    const known = this.#slots[slot];
    if (known !== undefined && known.full.length === end - start && this.#text.startsWith(known.full, start))
      return known;
    const full = this.#text.slice(start, end);
    const name = { full, local: localName(full) };
    this.#slots[slot] = name;
    return name;
  }
}

export const hashLetter = (hash: number, code: number): number => (Math.imul(hash, 31) + code) | 0;

/** A name without its prefix. */
export const localName = (name: string): string => name.slice(name.indexOf(':') + 1);
