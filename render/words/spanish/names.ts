import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';
import { bars, count, list } from './phrases.ts';

export const NAMES_WORDS: Pick<
  Words,
  'notes' | 'feet' | 'footHeads' | 'labelled' | 'afterLabel' | 'places' | 'inWords'
> = {
  notes: {
    positions: { flat: 'bemol', natural: 'becuadro', sharp: 'sostenido' },
    list,
    major: (tonic) => `${tonic} mayor`,
    minor: (tonic) => `${tonic} menor`,
    minorTonic: (tonic) => tonic,
  },
  feet: { left: 'izquierdo', right: 'derecho' },
  footHeads: { left: 'Pie izquierdo', right: 'Pie derecho' },
  labelled: (label, text) => `${label}: ${text}`,
  afterLabel: uncapitalize,
  places: {
    bars,
    extent: ({ from, until, count: at, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, tiempo ${at}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'nota', 'notas') : count(places, 'lugar', 'lugares')}`,
    beatInBar: (bar, beat) => `Compás ${bar}, tiempo ${beat}`,
  },
  inWords: {
    pedal: (pedal, position) => `${pedal}: ${position}`,
    times: { first: '1.ª vez', second: '2.ª vez', later: 'veces siguientes' },
    feet: { left: 'pie izquierdo', right: 'pie derecho' },
    levers: { up: 'subida', down: 'bajada' },
    hands: { left: 'mano izquierda', right: 'mano derecha' },
    here: 'pie aquí',
  },
};
