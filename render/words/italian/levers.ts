import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count } from './phrases.ts';

export const LEVERS_WORDS: Words['levers'] = {
  harp: (strings) => `Arpa a levette, ${strings} corde`,
  start: {
    tuning: (key) => `Accordatura: ${key}.`,
    allDown: 'Tutte le levette giù.',
    up: (names) => `Levette su: ${names.join(', ')}.`,
    down: (names) => `Levette giù: ${names.join(', ')}.`,
    allOf: (name) => `tutti i ${name}`,
  },
  onMusic: { tuning: 'Accordatura', up: 'Levette su', allDown: 'Tutte le levette giù', all: 'tutti i' },
  strings: 'Levette prima di cominciare',
  stringsLegend:
    'Le corde dalla più grave. Una levetta nera attraverso la corda è su, una grigia accanto è giù. Sopra una corda alzata sta ciò che dà, sotto ciascuna la sua accordatura.',
  tuningSheet: 'Foglio di accordatura',
  tuningHeads: {
    string: 'Corda',
    custom: 'Di solito',
    tuneTo: 'Accordare in',
    change: 'Differenza',
    up: 'Levette su',
    gives: 'Con levetta',
    fixed: 'Senza levetta',
  },
  tuningLegend: (tuning, harp) =>
    `${harp}. Accordare tutte le corde con le levette giù: ${tuning}. Poi mettere le levette.`,
  upForRepeat: (string) =>
    `La levetta di ${string} è su prima dell’inizio a causa del ritornello, che la lascia così: nessuna nota ne ha bisogno prima che sia messa giù.`,
  retuned: (semitones) =>
    `${count(Math.abs(semitones), 'semitono', 'semitoni')} ${semitones > 0 ? 'più alto' : 'più basso'}`,
  all: 'tutte',
  octaves: (octaves) => `${octaves.length === 1 ? 'ottava' : 'ottave'} ${octaves.join(', ')}`,
  changes: 'Cambi di levetta',
  noChanges: 'Nessuna levetta cambia in questa parte: non ci sono cambi da studiare.',
  changeCount: (changes, perMinute) =>
    `${count(changes, 'cambio di levetta', 'cambi di levetta')}, ${withComma(perMinute, 1)} al minuto mentre l’arpa suona.`,
  noBusyBars: 'Nessuna battuta ha più di un cambio di levetta.',
  busyBar: (bar, changes, names) => `Battuta ${bar}: ${changes} cambi (${names})`,
  passageChanges: 'Cambi',
  line: 'Solo le levette',
  lineLegend:
    'Le levette senza le corde: contare ad alta voce; la mano indicata mette la levetta sul suo tempo e torna al posto. Il nome è la nota che la corda dà da lì in poi. Una frazione è la parte del tempo già passata (senza frazione: fra i tempi); un numero sopra una linea spessa, altrettante battute senza levette. Lasciar riposare le mani prima di ricominciare.',
  table: 'Elenco dei cambi di levetta',
  tableHeads: {
    bar: 'Battuta',
    beat: 'Tempo',
    hand: 'Mano',
    lever: 'Levetta',
    to: 'Verso',
    gives: 'Dà',
    lead: 'Anticipo',
    why: 'Perché lì',
  },
  tableLegend:
    'L’anticipo è il tempo dal cambio di levetta alla prima nota che ne ha bisogno, al tempo d’esecuzione e leggendo senza salti.',
  positions: { up: 'su', down: 'giù' },
  hands: { left: 'sinistra', right: 'destra' },
  handLabels: { left: 'm.s.', right: 'm.d.' },
  handFree: (hand, leaves, returns) =>
    `la mano ${hand === 'left' ? 'sinistra' : 'destra'} è libera ${[
      ...(leaves === null ? [] : [`dopo ${leaves}`]),
      ...(returns === null ? [] : [`fino a ${returns}`]),
      ...(leaves === null && returns === null ? ['sempre'] : []),
    ].join(' ')}`,
  noteAt: (note, bar) => `${note} a battuta ${bar}`,
  atSpot: (levers) => `Al suo inizio: ${levers}`,
  spotsLegend:
    'I passaggi che non sono facili, prima quelli che non si possono suonare, poi il più difficile: secondo il livello, poi secondo il maggior numero di cambi in dieci secondi. Studiarli dall’ultimo al primo e far riposare le mani tra due esercizi. Le battute pallide non ne fanno parte.',
  restBetween: 'Tra un esercizio e l’altro riposare le mani; fermarsi subito se qualcosa fa male.',
  leversAlone:
    'Solo le levette, come sopra, contando ad alta voce, senza le corde; ogni mano torna al suo posto sopra le corde.',
  aroundEach:
    'Solo ciò che sta intorno a ogni cambio, lentamente quanto si vuole: l’ultima nota prima, il cambio e la prima nota dopo, finché le mani trovano tutto senza guardare.',
  handsAlone: 'Le note sole, le levette lasciate come all’inizio del passaggio: alcune note suonano diverse.',
  slowly: (beat, tempo) =>
    `Note e levette insieme, lentamente: a ${beat} = ${tempo} ogni mano ha almeno un secondo tra le sue levette.`,
  inTempo: (beat, tempo) =>
    `Note e levette insieme: anche al tempo d’esecuzione, ${beat} = ${tempo}, ogni mano ha un secondo tra le sue levette.`,
};
