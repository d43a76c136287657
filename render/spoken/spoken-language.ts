import type { NoteNames } from '../../engine/index.ts';
import { noteNames } from '../facts/tell-finding.ts';
import { LANGUAGES, type Language } from '../words/language.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';

/** The words of a language with its own names of notes, whichever are printed: a voice reads those of its language. */
export interface SpokenLanguage {
  readonly words: Words;
  readonly names: NoteNames;
}

export const speakIn = (language: Language): SpokenLanguage => {
  const words = wordsOf({ language });
  return { words, names: noteNames(LANGUAGES[language].naming, words) };
};
