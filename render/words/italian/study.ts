import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count, list } from './phrases.ts';

export const STUDY_WORDS: Words['study'] = {
  edition: 'edizione di studio',
  contents: 'Indice',
  opening: 'Pedali all’inizio',
  movement: (numeral) => `Movimento ${numeral}`,
  tune: 'Da accordare prima',
  difficulty: (grade) => `Difficoltà: ${grade}`,
  ownScale: 'Non esiste una scala pubblicata: i gradi sono nostri.',
  moves: 'Cambi di pedale',
  noMoves: 'Nessun pedale cambia in questa parte: non ci sono cambi da studiare.',
  moveCount: (moves, perMinute) =>
    `${count(moves, 'cambio di pedale', 'cambi di pedale')}, ${withComma(perMinute, 1)} al minuto mentre l’arpa suona.`,
  chordSymbols:
    'Le sigle degli accordi sono stampate, ma non se ne tiene conto: tutto ciò che si regola qui serve alle note scritte. Chi suona gli accordi regola anche le loro note.',
  busiest: 'Battute più fitte',
  asBusy: (bars) => `Altrettanti ${bars.length === 1 ? 'a battuta' : 'alle battute'} ${list(bars)}.`,
  noBusyBars: 'Nessuna battuta ha più di un cambio.',
  busyBar: (bar, moves, changes) => `Battuta ${bar}: ${moves} cambi (${changes})`,
  passages: 'Difficoltà per passaggio',
  passageHeads: {
    bars: 'Battute',
    grade: 'Difficoltà',
    moves: 'Cambi',
    perMinute: 'Al minuto',
    why: 'Perché',
  },
  part: 'La parte',
  chart: 'Tavola dei pedali',
  chartLegend:
    'Una corsia per ogni pedale: in alto i tre del piede sinistro, in basso i quattro del destro. La linea in alto nella corsia è il bemolle, al centro il bequadro, in basso il diesis, come stanno i pedali. Ogni cambio porta il nome che il pedale dà da lì in poi; ogni riga comincia con la posizione in vigore. Più battute senza cambi stanno come una sola: una linea grossa è una pausa, i punti sono musica.',
  table: 'Elenco dei cambi',
  tableHeads: {
    bar: 'Battuta',
    beat: 'Tempo',
    foot: 'Piede',
    pedal: 'Pedale',
    from: 'Da',
    to: 'A',
    lead: 'Anticipo',
    why: 'Perché lì',
  },
  tableLegend:
    'L’anticipo è il tempo dal cambio alla prima nota che ne ha bisogno, al tempo d’esecuzione e leggendo senza salti.',
  octaves: (middleC) => `${middleC} è qui il do centrale, che in Italia si chiama anche do 3.`,
  fullTempo: (note) => `${note}. È il tempo d’esecuzione di questi fogli.`,
  footwork: 'I piedi soli',
  pauseLegend: 'Quello che sta prima del primo tempo di un movimento si prepara tra i due movimenti.',
  footworkLegend:
    'I piedi soli, lontano dalle corde: contare ad alta voce e muovere ogni pedale sul suo tempo. Una frazione è la parte del tempo già passata (senza frazione: fra i tempi); un numero sopra una linea spessa, altrettante battute in cui i piedi riposano. Lasciar riposare i piedi prima di ricominciare.',
  counting: (metres) => `I tempi sono quelli che si contano ad alta voce (in una battuta di ${metres}).`,
  countingUpbeat: 'Una levata ha gli ultimi tempi della sua battuta.',
  countingDivided: 'Una battuta stampata in due parti si conta di seguito nella seconda.',
  spots: 'Passaggi difficili',
  spotsLegend:
    'I passaggi che non sono facili, prima quelli che non si possono suonare, poi il più difficile: secondo il livello, poi secondo il maggior numero di cambi in dieci secondi. Studiarli dall’ultimo al primo e far riposare mani e piedi tra due esercizi. Le battute pallide non ne fanno parte.',
  noSpots: 'Tutti i passaggi sono facili.',
  spot: (rank, where, grade) => `${rank}. ${where}: ${grade}`,
  exercises: 'Esercizi',
  noExercises:
    'Nessuno: com’è stampato, questo passaggio non è eseguibile. Scegliere prima un rimedio tra le osservazioni.',
  exceptBars: (names, count) =>
    count === 1
      ? `La battuta ${names} non è eseguibile com’è stampata: scegliere prima un rimedio tra le osservazioni, o studiare senza.`
      : `Le battute ${names} non sono eseguibili come sono stampate: scegliere prima un rimedio tra le osservazioni, o studiare senza.`,
  feetAlone: 'I piedi soli, come sopra, contando ad alta voce, senza le corde.',
  eachHand: 'Ogni mano da sola, lentamente quanto serve, finché ha tutte le note.',
  handsAlone: 'Le mani sole, i pedali lasciati come all’inizio del passaggio: alcune note suonano diverse.',
  slowly: (beat, tempo) =>
    `Mani e piedi insieme, lentamente: a ${beat} = ${tempo} ogni piede ha almeno un secondo tra i suoi cambi.`,
  inTempo: (beat, tempo) =>
    `Mani e piedi insieme: anche al tempo d’esecuzione, ${beat} = ${tempo}, ogni piede ha un secondo tra i suoi cambi.`,
  restBetween: 'Tra un esercizio e l’altro riposare mani e piedi; fermarsi subito se qualcosa fa male.',
  ladder: (beat, tempi) =>
    tempi.length === 1
      ? `Tre volte senza errori a ${beat} = ${tempi[0]}.`
      : `Di gradino in gradino, tre volte senza errori su ciascuno: ${beat} = ${tempi.join(', ')}.`,
  findings: 'Osservazioni',
  notes: 'Appunti',
  seconds: (seconds) => `${withComma(seconds, 1)} s`,
  withNote: 'con la nota',
  partOfBeat: (beat, part, parts) => `${beat}, ${part}ª di ${parts}`,
  hardlyAny: 'meno di 0,1 s',
  rate: (perMinute) => withComma(perMinute, 1),
  whyAfter: (note, bar) => `dopo ${note} a battuta ${bar}`,
  whyAfterChange: (bar) => `dopo il cambio a battuta ${bar}`,
  whyAsRepeatLeaves: 'all’inizio la posizione è quella che lascia il ritornello',
  whyFromStart: 'in qualunque momento dall’inizio',
  whyBefore: (note, bar, beat) => `prima di ${note} a battuta ${bar}, tempo ${beat}`,
  whyAfterJump: 'la prossima nota che ne ha bisogno viene dopo un salto',
  whyRestores: 'si rimette a posto per il ritornello',
  whyForRepeated: 'perché ciò che si ripete cominci allo stesso modo ogni volta',
  whyInPause: 'tra due movimenti',
  whyBeforeGrace: 'prima dell’acciaccatura',
  whyAgainst: (drawbacks) => `Contro: ${drawbacks.join('; ')}`,
};
