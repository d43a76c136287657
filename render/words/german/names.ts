import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';
import { bars, count, list } from './phrases.ts';

export const NAMES_WORDS: Pick<
  Words,
  'notes' | 'feet' | 'footHeads' | 'labelled' | 'afterLabel' | 'places' | 'inWords'
> = {
  notes: {
    positions: { flat: 'Be', natural: 'Auflöser', sharp: 'Kreuz' },
    list,
    major: (tonic) => `${tonic}-Dur`,
    // German writes minor tonics small.
    minor: (tonic) => `${uncapitalize(tonic)}-Moll`,
    minorTonic: uncapitalize,
  },
  feet: { left: 'links', right: 'rechts' },
  footHeads: { left: 'Linker Fuß', right: 'Rechter Fuß' },
  labelled: (label, text) => `${label}: ${text}`,
  // A whole sentence keeps its capital there.
  afterLabel: (sentence) => sentence.replace(/^Bis /, 'bis '),
  places: {
    bars,
    extent: ({ from, until, count: at, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, Zählzeit ${at}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'Note', 'Noten') : count(places, 'Stelle', 'Stellen')}`,
    beatInBar: (bar, beat) => `Takt ${bar}, Zählzeit ${beat}`,
  },
  inWords: {
    pedal: (pedal, position) => `${pedal} auf ${position}`,
    times: { first: '1. Mal', second: '2. Mal', later: 'später' },
    feet: { left: 'linker Fuß', right: 'rechter Fuß' },
    levers: { up: 'hoch', down: 'runter' },
    hands: { left: 'linke Hand', right: 'rechte Hand' },
    here: 'Fuß hier',
  },
};
