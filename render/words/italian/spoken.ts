import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

export const SPOKEN_WORDS: Words['spoken'] = {
  setting: (names) => `Posizione dei pedali ${names}`,
  change: (names) => `Cambio di pedale ${names}`,
  leverChange: (names) => `Cambio di levetta ${names}`,
  together: list,
  withNote: 'esattamente con la nota',
  place: (number) => `Punto ${number}`,
  toWrite: 'Da completare',
  page: (title, page) => `${title}, pagina ${page}`,
  engravedBy: (program) => `Inciso da ${program}`,
};
