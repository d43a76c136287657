import { NO_ATTRIBUTES, NO_CHILDREN, type Span, type XmlElement } from './tree.ts';

/** What an element says, read out of the document when it is first asked for. */
export interface ElementReader {
  attributesOf(start: number, end: number): Readonly<Record<string, string>>;
  textOf(start: number, end: number): string;
}

/**
 * An element while it is read and after. A score has a million, and most are never looked at: spans are made when asked
 * for, and so are attributes and text where `reader` is given and they are null.
 */
export class ReadElement implements XmlElement {
  readonly name: string;
  readonly start: number;
  innerStart = 0;
  innerEnd = 0;
  end = 0;
  children: readonly XmlElement[] = NO_CHILDREN;
  knownAttributes: Readonly<Record<string, string>> | null = NO_ATTRIBUTES;
  knownText: string | null = '';
  readonly #reader: ElementReader | null;

  constructor(name: string, start: number, reader: ElementReader | null) {
    this.name = name;
    this.start = start;
    this.#reader = reader;
  }

  get attributes(): Readonly<Record<string, string>> {
    this.knownAttributes ??= this.#reader!.attributesOf(this.start, this.innerStart);
    return this.knownAttributes;
  }

  get text(): string {
    this.knownText ??= this.#reader!.textOf(this.innerStart, this.innerEnd);
    return this.knownText;
  }

  get span(): Span {
    return { start: this.start, end: this.end };
  }

  get inner(): Span {
    return { start: this.innerStart, end: this.innerEnd };
  }
}
