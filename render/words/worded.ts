import type { ENGLISH } from './english/english.ts';

/** The same keys with words of any language: strings, lists of as many, and functions of the same facts. */
type Worded<Entry> = Entry extends string
  ? string
  : Entry extends (...facts: infer Facts) => string
    ? (...facts: Facts) => string
    : { readonly [Key in keyof Entry]: Worded<Entry[Key]> };

/** What every language says; one that lacks a key, or has one too many, does not compile. */
export type Words = Worded<typeof ENGLISH>;
