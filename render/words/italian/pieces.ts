import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

export const PIECES_WORDS: Pick<Words, 'card' | 'tuning' | 'set'> = {
  card: {
    moves: 'Cambi di pedale',
    changes: 'Cambi di levetta',
    none: 'nessuno',
    perMinute: (count, perMinute) => `${count}, ${withComma(perMinute, 1)} al minuto finché l’arpa suona`,
    lasts: (length, bars, assumed) =>
      `${length}, ${bars} ${bars === 1 ? 'battuta' : 'battute'}${assumed ? ' (senza indicazione di tempo: al passo)' : ''}`,
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
    retunedLetter: (from, to) => `Tutte le corde di ${from} in ${to}.`,
    retunedStrings: (from, octaves, to) =>
      octaves.length === 1
        ? `La corda di ${from} dell’ottava ${octaves[0]} in ${to}.`
        : `Le corde di ${from} delle ottave ${list(octaves)} in ${to}.`,
    retuned: (string, cents) =>
      `${string} di ${Math.abs(cents)} cent ${cents > 0 ? 'più alto' : 'più basso'}`,
    nothing: 'Nulla oltre all’accordatura abituale.',
    caution:
      'Non accordare nessuna corda sopra la sua altezza abituale senza il parere di un tecnico dell’arpa.',
  },
  set: {
    title: 'Raccolta per la classe',
    contents: 'Indice',
    difficulty: 'Difficoltà',
    difficultyLegend: (ownScale) =>
      `Il più facile per primo. Un minuto conta solo mentre l’arpa suona. ${ownScale}`,
    heads: {
      page: 'Pagina',
      grade: 'Difficoltà',
      changes: 'Cambi',
      perMinute: 'Al minuto',
      length: 'Durata',
      piece: 'Brano',
    },
    unplayable: (title) => `${title} (non suonabile com’è scritto)`,
    settings: 'Da un brano all’altro',
    settingsLegend: 'Come sta l’arpa prima di ogni brano, e che cosa si cambia dopo il precedente.',
    toSet: (names) => `Da cambiare dopo il brano precedente: ${names}.`,
    nothingToSet: 'Niente da cambiare dopo il brano precedente.',
    retune: 'Riaccordare dopo il brano precedente.',
    otherHarp: 'Su un’altra arpa rispetto al brano precedente.',
    refused: 'Non in questa raccolta',
  },
};
