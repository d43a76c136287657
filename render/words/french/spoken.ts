import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

export const SPOKEN_WORDS: Words['spoken'] = {
  setting: (names) => `Accord des pédales ${names}`,
  change: (names) => `Changement de pédale ${names}`,
  leverChange: (names) => `Changement de levier ${names}`,
  together: list,
  withNote: 'exactement avec la note',
  place: (number) => `Endroit ${number}`,
  toWrite: 'À compléter',
  page: (title, page) => `${title}, page ${page}`,
  engravedBy: (program) => `Gravé par ${program}`,
};
