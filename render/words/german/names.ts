import type { Words } from '../worded.ts';
import { bars, count, list } from './phrases.ts';

/** German writes minor tonics small: `a-Moll`. */
const minorTonic = (tonic: string): string => `${tonic.charAt(0).toLowerCase()}${tonic.slice(1)}`;

export const NAMES_WORDS: Pick<Words, 'notes' | 'feet' | 'footHeads' | 'places' | 'inWords'> = {
  notes: {
    positions: { flat: 'Be', natural: 'Auflöser', sharp: 'Kreuz' },
    list,
    major: (tonic) => `${tonic}-Dur`,
    minor: (tonic) => `${minorTonic(tonic)}-Moll`,
    minorTonic,
  },
  feet: { left: 'links', right: 'rechts' },
  footHeads: { left: 'Linker Fuß', right: 'Rechter Fuß' },
  places: {
    bars,
    extent: ({ from, until, beat, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, Zählzeit ${beat}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'Note', 'Noten') : count(places, 'Stelle', 'Stellen')}`,
    beatInBar: (bar, beat) => `Takt ${bar}, Zählzeit ${beat}`,
  },
  inWords: {
    pedal: (pedal, position) => `${pedal} auf ${position}`,
    feet: { left: 'linker Fuß', right: 'rechter Fuß' },
    levers: { up: 'Klappe nach oben', down: 'Klappe nach unten' },
    hands: { left: 'linke Hand', right: 'rechte Hand' },
  },
};
