import type { NoteNaming } from '../markings/note-names.ts';

/** The languages that sheets are written in, with the note names that go with each. */
export const LANGUAGES = {
  english: { label: 'English', naming: 'english', tag: 'en' },
  german: { label: 'German', naming: 'german', tag: 'de' },
  french: { label: 'French', naming: 'fixed-do', tag: 'fr' },
  italian: { label: 'Italian', naming: 'italian', tag: 'it' },
  spanish: { label: 'Spanish', naming: 'italian', tag: 'es' },
} as const satisfies Readonly<
  Record<string, { readonly label: string; readonly naming: NoteNaming; readonly tag: string }>
>;

/** A language of the sheets. */
export type Language = keyof typeof LANGUAGES;

/** Each language with what choices call it. */
export const labelLanguages = (): Readonly<Record<Language, string>> => ({
  english: LANGUAGES.english.label,
  german: LANGUAGES.german.label,
  french: LANGUAGES.french.label,
  italian: LANGUAGES.italian.label,
  spanish: LANGUAGES.spanish.label,
});
