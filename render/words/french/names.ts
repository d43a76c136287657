import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';
import { bars, count, list } from './phrases.ts';

export const NAMES_WORDS: Pick<
  Words,
  'notes' | 'feet' | 'footHeads' | 'labelled' | 'afterLabel' | 'places' | 'inWords'
> = {
  notes: {
    positions: { flat: 'bémol', natural: 'bécarre', sharp: 'dièse' },
    list,
    major: (tonic) => `${tonic} majeur`,
    minor: (tonic) => `${tonic} mineur`,
    minorTonic: (tonic) => tonic,
  },
  feet: { left: 'gauche', right: 'droit' },
  footHeads: { left: 'Pied gauche', right: 'Pied droit' },
  labelled: (label, text) => `${label} : ${text}`,
  afterLabel: uncapitalize,
  places: {
    bars,
    extent: ({ from, until, count: at, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, temps ${at}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'note', 'notes') : count(places, 'endroit', 'endroits')}`,
    beatInBar: (bar, beat) => `Mesure ${bar}, temps ${beat}`,
  },
  inWords: {
    pedal: (pedal, position) => `${pedal} : ${position}`,
    times: { first: '1re fois', second: '2e fois', later: 'fois suivantes' },
    feet: { left: 'pied gauche', right: 'pied droit' },
    levers: { up: 'levé', down: 'baissé' },
    hands: { left: 'main gauche', right: 'main droite' },
    here: 'pied ici',
  },
};
