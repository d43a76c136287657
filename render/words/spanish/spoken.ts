import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

export const SPOKEN_WORDS: Words['spoken'] = {
  setting: (names) => `Posición de los pedales ${names}`,
  change: (names) => `Cambio de pedal ${names}`,
  leverChange: (names) => `Cambio de palanca ${names}`,
  together: list,
  withNote: 'exactamente con la nota',
  place: (number) => `Lugar ${number}`,
  toWrite: 'Por completar',
  page: (title, page) => `${title}, página ${page}`,
  engravedBy: (program) => `Grabado por ${program}`,
};
