import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';
import { bars, count, list } from './phrases.ts';

export const NAMES_WORDS: Pick<
  Words,
  'notes' | 'feet' | 'footHeads' | 'labelled' | 'afterLabel' | 'places' | 'inWords'
> = {
  notes: {
    positions: { flat: 'bemolle', natural: 'bequadro', sharp: 'diesis' },
    list,
    major: (tonic) => `${tonic} maggiore`,
    minor: (tonic) => `${tonic} minore`,
    minorTonic: (tonic) => tonic,
  },
  feet: { left: 'sinistro', right: 'destro' },
  footHeads: { left: 'Piede sinistro', right: 'Piede destro' },
  labelled: (label, text) => `${label}: ${text}`,
  afterLabel: uncapitalize,
  places: {
    bars,
    extent: ({ from, until, count: at, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, tempo ${at}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'nota', 'note') : count(places, 'punto', 'punti')}`,
    beatInBar: (bar, beat) => `Battuta ${bar}, tempo ${beat}`,
  },
  inWords: {
    pedal: (pedal, position) => `${pedal}: ${position}`,
    times: { first: '1a volta', second: '2a volta', later: 'volte seguenti' },
    feet: { left: 'piede sinistro', right: 'piede destro' },
    levers: { up: 'su', down: 'giù' },
    hands: { left: 'mano sinistra', right: 'mano destra' },
    here: 'piede qui',
  },
};
