import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

export const SPOKEN_WORDS: Words['spoken'] = {
  setting: (names) => `Pedalstellung ${names}`,
  change: (names) => `Pedalwechsel ${names}`,
  leverChange: (names) => `Klappenwechsel ${names}`,
  together: list,
  withNote: 'genau mit der Note',
  place: (number) => `Stelle ${number}`,
  toWrite: 'Zum Eintragen',
  page: (title, page) => `${title}, Seite ${page}`,
  engravedBy: (program) => `Gesetzt von ${program}`,
};
