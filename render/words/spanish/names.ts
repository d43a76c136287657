import type { Words } from '../worded.ts';
import { bars, count, list } from './phrases.ts';

export const NAMES_WORDS: Pick<Words, 'notes' | 'feet' | 'footHeads' | 'places' | 'inWords'> = {
  notes: {
    positions: { flat: 'bemol', natural: 'becuadro', sharp: 'sostenido' },
    list,
    major: (tonic) => `${tonic} mayor`,
    minor: (tonic) => `${tonic} menor`,
    minorTonic: (tonic) => tonic,
  },
  feet: { left: 'izquierdo', right: 'derecho' },
  footHeads: { left: 'Pie izquierdo', right: 'Pie derecho' },
  places: {
    bars,
    extent: ({ from, until, beat, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, tiempo ${beat}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'nota', 'notas') : count(places, 'lugar', 'lugares')}`,
    beatInBar: (bar, beat) => `Compás ${bar}, tiempo ${beat}`,
  },
  inWords: {
    pedal: (pedal, position) => `${pedal}: ${position}`,
    feet: { left: 'pie izquierdo', right: 'pie derecho' },
    levers: { up: 'palanca subida', down: 'palanca bajada' },
    hands: { left: 'mano izquierda', right: 'mano derecha' },
  },
};
