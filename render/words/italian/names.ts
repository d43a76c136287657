import type { Words } from '../worded.ts';
import { bars, count, list } from './phrases.ts';

export const NAMES_WORDS: Pick<Words, 'notes' | 'feet' | 'footHeads' | 'places' | 'inWords'> = {
  notes: {
    positions: { flat: 'bemolle', natural: 'bequadro', sharp: 'diesis' },
    list,
    major: (tonic) => `${tonic} maggiore`,
    minor: (tonic) => `${tonic} minore`,
    minorTonic: (tonic) => tonic,
  },
  feet: { left: 'sinistro', right: 'destro' },
  footHeads: { left: 'Piede sinistro', right: 'Piede destro' },
  places: {
    bars,
    extent: ({ from, until, beat, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, tempo ${beat}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'nota', 'note') : count(places, 'punto', 'punti')}`,
    beatInBar: (bar, beat) => `Battuta ${bar}, tempo ${beat}`,
  },
  inWords: {
    pedal: (pedal, position) => `${pedal}: ${position}`,
    feet: { left: 'piede sinistro', right: 'piede destro' },
    levers: { up: 'leva su', down: 'leva giù' },
    hands: { left: 'mano sinistra', right: 'mano destra' },
  },
};
