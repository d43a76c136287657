import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

const WAYS = { up: 'da alzare', down: 'da abbassare' } as const;

export const PIECES_WORDS: Pick<Words, 'card' | 'tuning' | 'set'> = {
  card: {
    moves: 'Cambi di pedale',
    changes: 'Cambi di levetta',
    none: 'nessuno',
    perMinute: (count, perMinute) =>
      `${count} nella parte; in media ${withComma(perMinute, 1)} al minuto con tutti i ritornelli`,
    lasts: (length, bars) =>
      `${length} con tutti i ritornelli e le pause, ${bars} ${bars === 1 ? 'battuta' : 'battute'}`,
    tempo: {
      assumed: (tempo) => `all’inizio non è indicato alcun tempo; ${tempo} è un’ipotesi`,
      sound: (tempo) =>
        `all’inizio non c’è indicazione metronomica; ${tempo} è il tempo di riproduzione del file`,
    },
    tune: 'Da accordare',
    tuning: 'Accordatura',
  },
  tuning: {
    onMusic: {
      withoutPedal: 'Da accordare prima di suonare, senza pedale:',
      byCents: 'Da accordare prima di suonare:',
      to: (string) => `${string} in`,
    },
    withoutDisc: (from, to) => `${from} da accordare in ${to}: questa corda non ha disco.`,
    retunedLetter: (from, to, way) => `Tutte le corde di ${from} ${WAYS[way]} a ${to}.`,
    retunedStrings: (from, octaves, to, way) =>
      octaves.length === 1
        ? `La corda di ${from} dell’ottava ${octaves[0]} ${WAYS[way]} a ${to}.`
        : `Le corde di ${from} delle ottave ${list(octaves)} ${WAYS[way]} a ${to}.`,
    retuned: (string, cents) =>
      `${string} di ${Math.abs(cents)} cent ${cents > 0 ? 'più alto' : 'più basso'}`,
    nothing: 'Nulla oltre all’accordatura abituale.',
    caution:
      'Se una corda sopporta un’altezza superiore alla sua abituale lo dice un tecnico dell’arpa: chiedere prima.',
  },
  set: {
    title: 'Raccolta per la classe',
    contents: 'Indice',
    difficulty: 'Difficoltà',
    difficultyLegend: (ownScale) =>
      `Il più facile per primo. Cambi e minuto si contano com’è stampato, ogni battuta una volta, il minuto solo mentre l’arpa suona; la durata ha tutti i ritornelli. ${ownScale}`,
    heads: {
      page: 'Pagina',
      grade: 'Difficoltà',
      changes: 'Cambi',
      perMinute: 'Al minuto',
      length: 'Durata',
      piece: 'Brano',
    },
    unplayable: (title) => `${title} (non eseguibile com’è scritto)`,
    settings: 'Da un brano all’altro',
    settingsLegend:
      'Che cosa serve a ogni brano prima dell’inizio, e che cosa se ne cambia dopo il precedente. Le corde che un brano non suona restano come sono.',
    toSet: (names) => `Da cambiare dopo il brano precedente: ${names}.`,
    setAhead: (names) => `Da regolare già ora per brani successivi: ${names}.`,
    nothingToSet: 'Niente da cambiare dopo il brano precedente.',
    retune: 'Da riaccordare, con le levette di queste corde giù',
    otherHarp: 'Su un’altra arpa rispetto al brano precedente.',
    refused: 'Non in questa raccolta',
    refusals: {
      unreadable: 'Il file non si può leggere come partitura.',
      unsupported: 'Contiene qualcosa che non è supportato.',
      noHarp: 'Nessuna parte porta il nome dell’arpa; scegliere la parte.',
      noMusic: 'La parte non ha note.',
      noSuchTune: 'Questa melodia non è nel libro.',
      tooLarge: 'Il brano è troppo grande.',
      tooSlow: 'L’elaborazione è durata troppo a lungo.',
      notDrawn: 'Non è stato possibile disegnare il brano.',
    },
  },
};
