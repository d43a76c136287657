import { ENGLISH } from './english/english.ts';
import { FRENCH } from './french/french.ts';
import { GERMAN } from './german/german.ts';
import { ITALIAN } from './italian/italian.ts';
import type { Language } from './language.ts';
import { SPANISH } from './spanish/spanish.ts';
import type { Words } from './worded.ts';

/** Every word of the sheets, in every language. */
const WORDS: Readonly<Record<Language, Words>> = {
  english: ENGLISH,
  german: GERMAN,
  french: FRENCH,
  italian: ITALIAN,
  spanish: SPANISH,
};

/** The words of what is written in a language, such as a sheet. */
export const wordsOf = ({ language }: { readonly language: Language }): Words => WORDS[language];
