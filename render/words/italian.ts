import { capitalize, type FailingBars, type Measures } from '../../engine/index.ts';
import { withComma } from './decimal-comma.ts';
import type { Words } from './worded.ts';

const count = (number: number, one: string, several: string): string =>
  `${number} ${number === 1 ? one : several}`;

const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} e ${names.at(-1)}`;

const bars = (from: string, until: string): string =>
  from === '' || until === ''
    ? 'Battuta senza numero'
    : from === until
      ? `Battuta ${from}`
      : `Battute ${from}–${until}`;

const inBars = (number: number): string => `in ${count(number, 'battuta', 'battute')}`;

const failingWords = ({ feet, hands, strings }: FailingBars): string =>
  [
    ...(feet > 0 ? [`i piedi non hanno tempo ${inBars(feet)}`] : []),
    ...(hands > 0 ? [`nessuna mano è libera per una levetta ${inBars(hands)}`] : []),
    ...(strings > 0 ? [`le corde non possono dare le note ${inBars(strings)}`] : []),
  ].join(', ');

const handsWords = ({ barsOverloaded: { left, right } }: Measures): string =>
  [
    ...(left > 0 ? [`la mano sinistra ha troppo da fare ${inBars(left)}`] : []),
    ...(right > 0 ? [`la mano destra ha troppo da fare ${inBars(right)}`] : []),
  ].join(', ');

const GRADES = {
  easy: 'facile',
  moderate: 'medio',
  hard: 'difficile',
  'very-hard': 'molto difficile',
  'not-playable': 'non suonabile',
} as const;

/**
 * The words of the sheets in Italian. From memory: posizione dei pedali, cambio di pedale, levetta (the lever), disco
 * (the disc), bemolle, bequadro and diesis for the notches; no method was at hand.
 */
export const ITALIAN: Words = {
  notes: {
    positions: { flat: 'bemolle', natural: 'bequadro', sharp: 'diesis' },
    list,
    major: (tonic) => `${tonic} maggiore`,
    minor: (tonic) => `${tonic} minore`,
    minorTonic: (tonic) => tonic,
  },
  feet: { left: 'sinistro', right: 'destro' },
  footHeads: { left: 'Piede sinistro', right: 'Piede destro' },
  places: {
    bars,
    extent: ({ from, until, beat, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, tempo ${beat}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'nota', 'note') : count(places, 'punto', 'punti')}`,
    beatInBar: (bar, beat) => `Battuta ${bar}, tempo ${beat}`,
  },
  study: {
    edition: 'edizione di studio',
    contents: 'Indice',
    opening: 'Pedali all’inizio',
    tune: 'Da accordare prima',
    difficulty: (grade) => `Difficoltà: ${grade}`,
    ownScale: 'Non esiste una scala pubblicata: i gradi sono nostri.',
    moves: 'Cambi di pedale',
    noMoves: 'Nessun pedale cambia in questa parte.',
    moveCount: (moves, perMinute) =>
      `${count(moves, 'cambio di pedale', 'cambi di pedale')}, ${withComma(perMinute, 1)} al minuto mentre l’arpa suona.`,
    busiest: 'Battute più fitte',
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
      'L’anticipo è il tempo dal cambio alla prima nota che ne ha bisogno, al tempo scritto e leggendo senza salti.',
    octaves: (middleC) => `${middleC} è qui il do centrale, che in Italia si chiama anche do 3.`,
    footwork: 'I piedi soli',
    footworkLegend:
      'I piedi soli, lontano dalle corde: contare ad alta voce e muovere ogni pedale sul suo tempo. Una frazione è la parte del tempo già passata; un numero sopra una linea spessa è una pausa di altrettante battute. Lasciar riposare i piedi prima di ricominciare.',
    spots: 'Passaggi difficili',
    spotsLegend:
      'I passaggi che non sono facili, il più difficile per primo. Studiarli dall’ultimo al primo e far riposare mani e piedi tra due esercizi.',
    noSpots: 'Tutti i passaggi sono facili.',
    spot: (rank, where, grade) => `${rank}. ${where}: ${grade}`,
    exercises: 'Esercizi',
    noExercises:
      'Nessuno: com’è stampato, questo passaggio non è suonabile. Scegliere prima un rimedio tra le osservazioni.',
    feetAlone: 'I piedi soli, come sopra, contando ad alta voce, senza le corde.',
    handsAlone: 'Le mani sole, i pedali lasciati come all’inizio del passaggio: alcune note suonano diverse.',
    slowly: (tempo) =>
      `Mani e piedi insieme, lentamente: a ♩ = ${tempo} ogni piede ha un secondo tra i suoi cambi.`,
    inTempo: (tempo) =>
      `Mani e piedi insieme al tempo scritto, ♩ = ${tempo}: ogni piede ha un secondo tra i suoi cambi.`,
    ladder: (tempi) =>
      tempi.length === 1
        ? `Tre volte senza errori a ♩ = ${tempi[0]}.`
        : `Di gradino in gradino, tre volte senza errori su ciascuno: ♩ = ${tempi.join(', ')}.`,
    findings: 'Osservazioni',
    noFindings: 'Nessun problema trovato: la parte è suonabile come è stampata.',
    notes: 'Appunti',
    seconds: (seconds) => `${withComma(seconds, 1)} s`,
    rate: (perMinute) => withComma(perMinute, 1),
    whyAfter: (note, bar) => `dopo ${note} a battuta ${bar}`,
    whyFromStart: 'in qualunque momento dall’inizio',
    whyBefore: (note, bar, beat) => `prima di ${note} a battuta ${bar}, tempo ${beat}`,
    whyAfterJump: 'la prossima nota che ne ha bisogno viene dopo un salto',
    whyRestores: 'rimette il pedale per il ritornello',
    whyBeforeGrace: 'prima dell’acciaccatura',
    whyAgainst: (drawbacks) => `Contro: ${drawbacks.join('; ')}`,
  },

  inWords: {
    pedal: (pedal, position) => `${pedal}: ${position}`,
    feet: { left: 'piede sinistro', right: 'piede destro' },
    levers: { up: 'leva su', down: 'leva giù' },
    hands: { left: 'mano sinistra', right: 'mano destra' },
  },
  reading: {
    title: 'Come si leggono i segni',
    onThePages: 'Sulle pagine di musica',
    setting: 'Un diagramma mostra come stanno tutti i pedali da quel punto in poi.',
    change: {
      foot: 'Un nome di nota con il suo segno è un cambio: lì il piede sposta questo pedale, prima della nota che lo richiede.',
      note: 'Un nome di nota con il suo segno è un cambio: il pedale deve stare così quando viene questa nota.',
    },
    feet: 'Dove cambiano tutti e due i piedi, il destro sta sopra, il sinistro sotto.',
    ring: 'Un pedale cerchiato è cambiato dopo l’ultimo diagramma.',
    wedge: 'Un cuneo dopo il cambio vuol dire: esattamente con la nota.',
    counts: 'Le cifre sopra la musica sono i tempi da contare.',
    colours: {
      'c-red-f-black': 'Le note delle corde di do sono rosse come le corde.',
      'c-red-f-blue':
        'Le note delle corde di do sono rosse e quelle delle corde di fa blu, per trovare subito le corde.',
    },
    leverTable:
      'La tabella delle leve ha una colonna per ogni nota e una riga per ogni ottava. Un triangolo è una leva su, un trattino una leva giù.',
    leverChange: {
      names:
        'Un nome con un numero è un cambio: lì una mano sposta la leva di questa corda, che poi dà questa nota.',
      notes:
        'Una piccola nota è un cambio: lì una mano sposta la leva di questa corda, che poi dà questa nota.',
    },
    leverHands: 'Davanti al nome sta la mano che lo fa.',
  },
  exercise: {
    title: 'Esercizio',
    solution: 'Soluzione',
    task: {
      pedal: {
        boxes:
          'Scrivi in ogni riquadro ciò che vi sta: in uno largo come stanno tutti i pedali, in uno piccolo il cambio. La soluzione è nelle ultime pagine.',
        none: 'Scrivi come stanno i pedali prima della prima nota, e ogni cambio dove il piede si muove. La soluzione è nelle ultime pagine.',
      },
      lever: {
        boxes:
          'Scrivi in ogni riquadro ciò che vi sta: prima della prima nota quali leve sono su, poi ogni cambio. La soluzione è nelle ultime pagine.',
        none: 'Scrivi quali leve sono su prima della prima nota, e ogni cambio dove una mano è libera. La soluzione è nelle ultime pagine.',
      },
    },
  },

  marked: {
    title: 'Correzione',
    points: (given, most) => `${given} punti su ${most}`,
    counts: (counts) =>
      [
        `giusti: ${counts.right}`,
        `da spostare: ${counts['better-place']}`,
        `sbagliati: ${counts.wrong}`,
        `mancanti: ${counts.missing}`,
        `superflui: ${counts.needless}`,
      ].join(', '),
    verdicts: {
      right: 'Giusto',
      'better-place': 'Giusto, ma c’è un posto migliore',
      wrong: 'Sbagliato',
      missing: 'Manca',
      needless: 'Superfluo',
    },
    opening: 'posizione iniziale',
    comment: (place, what, verdict) => `${place}, ${what}: ${verdict}.`,
    sounds: (place, note, instead) => `${place}: invece di ${note} suona ${instead}.`,
    unstated: (place, note) => `${place}: non è scritto come sta il pedale di ${note}.`,
    write: (names) => `Scrivere ${names}.`,
    move: (place) => `Il suo posto è qui: ${place}.`,
    strike: 'Da togliere.',
    tooQuick: 'Lì il piede non ha tempo.',
    better: (place, why) => `Meglio qui: ${place}. ${why}`,
    why: {
      bends: 'Dove sta il cambio, una corda di questo pedale suona ancora.',
      late: 'Viene subito prima della sua nota, benché il piede sia libero prima.',
      early: 'Viene tanto prima della sua nota che bisogna tenerlo a mente.',
    },
    needless: {
      stands: 'Il pedale sta già così.',
      unasked: 'Nessuna nota lo richiede.',
      twice: 'È già scritto qui.',
    },
    allRight: 'Ogni nota trova il suo pedale, e ogni cambio sta bene dov’è.',
  },

  card: {
    moves: 'Cambi di pedale',
    changes: 'Cambi di leva',
    none: 'nessuno',
    perMinute: (count, perMinute) => `${count}, ${withComma(perMinute, 1)} al minuto finché l’arpa suona`,

    lasts: (length, bars, assumed) =>
      `${length}, ${bars} ${bars === 1 ? 'battuta' : 'battute'}${assumed ? ' (senza indicazione di tempo: a passo d’uomo)' : ''}`,
    tune: 'Da accordare',
    tuning: 'Accordatura',
  },

  tuning: {
    withoutDisc: (from, to) => `${from} da accordare in ${to}: questa corda non ha disco.`,
    retunedLetter: (from, to) => `Tutte le corde di ${from} in ${to}.`,
    retunedStrings: (from, octaves, to) =>
      octaves.length === 1
        ? `La corda di ${from} dell’ottava ${octaves[0]} in ${to}.`
        : `Le corde di ${from} delle ottave ${list(octaves)} in ${to}.`,
    byCents: (string, cents) =>
      `${string} di ${Math.abs(cents)} cent ${cents > 0 ? 'più alto' : 'più basso'}.`,
    nothing: 'Nulla oltre all’accordatura abituale.',
    caution:
      'Non accordare nessuna corda sopra la sua altezza abituale senza il parere di un tecnico dell’arpa.',
  },

  levers: {
    harp: (strings) => `Arpa a levette, ${strings} corde`,
    start: {
      tuning: (key) => `Accordatura: ${key}.`,
      allDown: 'Tutte le levette giù.',
      up: (names) => `Levette su: ${names.join(', ')}.`,
      allOf: (name) => `tutti i ${name}`,
    },
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
    retuned: (semitones) =>
      `${count(Math.abs(semitones), 'semitono', 'semitoni')} ${semitones > 0 ? 'più alto' : 'più basso'}`,
    all: 'tutte',
    octaves: (octaves) => `${octaves.length === 1 ? 'ottava' : 'ottave'} ${octaves.join(', ')}`,
    changes: 'Cambi di levetta',
    noChanges: 'Nessuna levetta cambia in questa parte.',
    changeCount: (changes, perMinute) =>
      `${count(changes, 'cambio di levetta', 'cambi di levetta')}, ${withComma(perMinute, 1)} al minuto mentre l’arpa suona.`,
    noBusyBars: 'Nessuna battuta ha più di un cambio di levetta.',
    busyBar: (bar, changes, names) => `Battuta ${bar}: ${changes} cambi (${names})`,
    passageChanges: 'Cambi',
    line: 'Le levette sole',
    lineLegend:
      'Le levette senza le corde: contare ad alta voce; la mano indicata mette la levetta sul suo tempo e torna al posto. Il nome è la nota che la corda dà da lì in poi. Una frazione è la parte del tempo già passata; un numero sopra una linea spessa è una pausa di altrettante battute. Lasciar riposare le mani prima di ricominciare.',
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
      'L’anticipo è il tempo dal cambio di levetta alla prima nota che ne ha bisogno, al tempo scritto e leggendo senza salti.',
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
    spotsLegend:
      'I passaggi che non sono facili, il più difficile per primo. Studiarli dall’ultimo al primo e far riposare le mani tra due esercizi.',
    leversAlone:
      'Le levette sole, come sopra, contando ad alta voce, senza le corde; ogni mano torna al suo posto sopra le corde.',
    aroundEach:
      'Solo ciò che sta intorno a ogni cambio, lentamente quanto si vuole: l’ultima nota di quella mano, la levetta e la sua prima nota dopo, finché la mano trova tutte e tre senza guardare.',
    handsAlone:
      'Le note sole, le levette lasciate come all’inizio del passaggio: alcune note suonano diverse.',
    slowly: (tempo) =>
      `Note e levette insieme, lentamente: a ♩ = ${tempo} ogni mano ha un secondo tra le sue levette.`,
    inTempo: (tempo) =>
      `Note e levette insieme al tempo scritto, ♩ = ${tempo}: ogni mano ha un secondo tra le sue levette.`,
  },

  drawbacks: {
    move: 'ogni cambio conta un poco',
    respelling: 'una nota è sostituita dalla sua enarmonica',
    footTooBusy: 'il piede non ne ha il tempo',
    pedalsTogether: 'un piede muove due pedali insieme',
    forbidden: 'qui non sono permessi cambi',
    stringSounding: 'una corda di questo pedale suona ancora',
    stringRinging: 'una corda di questo pedale forse vibra ancora',
    noLead: 'cade insieme alla nota che ne ha bisogno',
    shortLead: 'poco tempo prima della nota che ne ha bisogno',
    offBeat: 'cade tra i tempi',
    betweenBeats: 'qui non c’è né un tempo, né una nota, né una pausa',
    betweenBeatsOfRest: 'nella pausa cade tra i tempi',
    handsBusy: 'le mani suonano',
    handsHolding: 'alcune note sono tenute',
    perNotePlucked: 'in questo momento si suonano note',
    insideRun: 'cade dentro una volata',
    closeMoves: 'lo stesso piede si è mosso poco prima',
    perSecondAhead: 'viene molto prima della sua nota',
    perSecondForgotten: 'l’indicazione può essere dimenticata prima della nota',
    missedRest: 'la pausa precedente era il posto giusto',
    startsElsewhere: 'all’inizio il pedale sta altrove',
    restoring: 'serve solo quando la musica ritorna qui',
    twoNotchesInHaste: 'due tacche in poco tempo',
  },
  difficulty: {
    grades: GRADES,
    reasons: {
      mostInTenSeconds: ({ mostInTenSeconds: most }, harp) =>
        `Fino a ${harp === 'pedal' ? count(most, 'cambio di pedale', 'cambi di pedale') : count(most, 'cambio di levetta', 'cambi di levetta')} in dieci secondi.`,
      shortestSpacing: ({ shortestSpacing: { left, right } }, harp) => {
        const isLeft = right === null || (left !== null && left <= right);
        const seconds = withComma(isLeft ? left! : right, 2);
        return harp === 'pedal'
          ? `Il piede ${isLeft ? 'sinistro' : 'destro'} ha solo ${seconds} s tra due cambi.`
          : `La mano ${isLeft ? 'sinistra' : 'destra'} ha solo ${seconds} s tra due levette.`;
      },
      atThePluck: ({ atThePluck }) =>
        `Il ${Math.round(atThePluck * 100)} % dei cambi cade insieme alla nota che ne ha bisogno.`,
      stringsBent: ({ stringsBent }) =>
        stringsBent === 1
          ? 'Un cambio altera una corda che suona ancora.'
          : `${stringsBent} cambi alterano una corda che suona ancora.`,
      barsOverloaded: (measures) => `${capitalize(handsWords(measures))}.`,
      feetTogether: ({ feetTogether }) =>
        `Due pedali si muovono insieme ${count(feetTogether, 'volta', 'volte')}.`,
      notesPerSecond: ({ notesPerSecond }) =>
        `Le mani suonano ${count(Math.round(notesPerSecond), 'nota', 'note')} al secondo.`,
    },
    easy: ({ changes }, harp) => {
      const [none, seldom] =
        harp === 'pedal'
          ? ['Nessun pedale cambia', 'I pedali cambiano di rado']
          : ['Nessuna levetta cambia', 'Le levette cambiano di rado'];
      return `${changes === 0 ? none : seldom}, e le mani hanno tempo.`;
    },
    unplayable: (failing) => `Non suonabile come è stampato: ${failingWords(failing)}.`,
    share: (passages, of, grade) =>
      of === 1
        ? `Grado della parte: ${GRADES[grade]}.`
        : `Passaggi di grado ${GRADES[grade]}: ${passages} su ${of}.`,
    verdict: (failing, measures, harp) => {
      const hands = handsWords(measures);
      if (failing.first !== null) {
        const where = failing.first === '' ? '' : `: il primo ostacolo è a battuta ${failing.first}`;
        return [`non suonabile come è stampato${where}`, failingWords(failing), hands]
          .filter((each) => each !== '')
          .join('; ');
      }
      const whole = harp === 'pedal' ? 'suonabile per mani e piedi' : 'suonabile come è stampato';
      const part = harp === 'pedal' ? 'suonabile per i piedi' : 'le levette sono suonabili';
      return hands === '' ? whole : `${part}; ${hands}`;
    },
  },
  findings: {
    severities: { stop: 'Non suonabile', warn: 'Attenzione', note: 'Nota' },
    sentences: {
      'string-for-both-hands': 'Le due mani devono pizzicare qui la stessa corda.',
      'too-many-notes-in-hand': 'Una mano ha qui più note di quante ne possa prendere.',
      'stretch-too-wide': 'L’estensione è troppo ampia per una mano.',
      'string-restruck-fast': 'Una corda viene pizzicata di nuovo prima di poter risuonare.',
      'harmonic-out-of-range': 'L’armonico è fuori dal registro utile.',
      'too-many-harmonics': 'Una mano non può suonare tanti armonici insieme.',
      'strings-to-retune': 'Prima del brano bisogna riaccordare delle corde.',
      'no-string-in-tuning': 'In questa accordatura nessuna corda dà questa nota.',
      'no-free-hand': 'Qui nessuna mano è libera per la leva.',
      'hand-too-busy': 'La mano non ha il tempo di spostare la leva.',
      'other-hand-taken': 'La leva deve spostarla l’altra mano.',
      'lever-short-lead': 'La leva viene spostata appena prima della sua nota.',
      'lever-far-ahead': 'La leva viene spostata molto prima della sua nota.',
      'hands-hurried-passage': 'In queste battute le mani hanno fretta alle leve.',
      'lever-restored': 'La leva torna al suo posto per la ripetizione.',
      'lever-pin-not-honoured': 'La leva fissata non si è potuta rispettare qui.',
      'no-markings': 'Nessuna indicazione di pedale.',
      'words-not-understood': 'Parole non comprese.',
      'notes-before-marking': 'Posizione del pedale sconosciuta.',
      'note-not-served': 'Pedale sbagliato per una nota.',
      'repeat-lands-wrong': 'Pedale sbagliato dopo un ritornello.',
      'change-too-quick': 'Indicazioni troppo vicine.',
      'markings-contradict': 'Indicazioni in contrasto.',
      'marking-needless': 'Indicazione non necessaria.',
      'marking-bends-string': 'Cambio mentre la corda suona.',
      'marking-late': 'Tardi per il piede.',
      'marking-early': 'Presto per il piede.',
      'glissando-unlike-key': 'Glissando diverso dalla tonalità.',
      'foot-too-busy': 'Il piede non ha il tempo per i suoi cambi.',
      'pedal-in-two-positions': 'Un pedale dovrebbe stare in due posizioni insieme.',
      'pedals-together': 'Un piede muove qui due pedali vicini insieme.',
      'foot-crossed': 'Un piede muove qui un pedale dell’altro lato.',
      'feet-hurried-passage': 'In queste battute i piedi hanno fretta.',
      'repeat-restored': 'Il pedale torna al suo posto per la ripetizione.',
      'pin-not-honoured': 'La scelta fissata non si è potuta rispettare qui.',
      'marking-contradicts-notes': 'L’indicazione di pedale stampata non va d’accordo con le note.',
      'out-of-range': 'La nota è fuori dall’estensione dell’arpa.',
      'string-in-two-pitches': 'Una corda dovrebbe dare due altezze insieme.',
      'quarter-tone': 'Nessun pedale dà un quarto di tono.',
      'double-accidental':
        'Nessuna corda dà una doppia alterazione con il suo nome: si suona sulla corda vicina.',
      'played-on-other-string': 'La nota si suona sulla corda vicina.',
      'fixed-string-tuning': 'Una corda senza disco va accordata prima del brano.',
      'fixed-string-in-two-pitches': 'Una corda senza disco dovrebbe dare due altezze.',
      'string-retuned': 'Per questo brano alcune corde sono accordate più in basso.',
      'string-tuned-higher': 'Per questo brano alcune corde sono accordate più in alto.',
      'pitch-lost-by-retuning': 'Per via dell’accordatura nessuna corda dà più questa nota.',
      'octaves-differ': 'La stessa nota è diversa nelle ottave, e un pedale vale per tutte.',
      'ringing-string-moved': 'Un pedale si muove mentre una sua corda suona ancora.',
      'glissando-setting-guessed':
        'La posizione per il glissando non è indicata per intero ed è stata completata.',
      'flat-key-rings-fuller': 'In una tonalità con bemolli l’arpa suona più piena.',
      'shared-notes-kept': 'Le note di più esecutori non si distinguono e sono tutte previste.',
      'written-for-several': 'La parte è scritta per più esecutori.',
    },
    respell: (from, to) => `Suonare ${from} come ${to}.`,
    omit: (note) => `Omettere ${note}.`,
  },
  handouts: {
    titles: {
      keys: 'Tonalità',
      glissandi: 'Glissandi',
      'doubled-strings': 'Corde doppie',
      pedals: 'Pedali e dischi',
    },
    pedalKeys: 'Tonalità sull’arpa a pedali',
    pedalKeysLegend:
      'Una tonalità maggiore e la sua relativa minore hanno la stessa posizione. Per il minore armonico e il minore melodico ascendente muovere anche questi pedali. Nessun pedale dà un doppio diesis, qui tra parentesi: si suona sulla corda superiore, il cui pedale cambia per esso.',
    pedalKeyHeads: {
      major: 'Maggiore',
      minor: 'Minore',
      setting: 'Pedali',
      names: '',
      harmonic: 'Armonico',
      melodic: 'Melodico asc.',
    },
    leverKeys: 'Tonalità sull’arpa a levette',
    leverKeysLegend: (tuning) =>
      `Le corde sono accordate in ${tuning}, tutte le levette giù. «Su» è una levetta da alzare; nell’ultima colonna stanno le corde da riaccordare prima del brano, in tutte le ottave. Non accordare nessuna corda sopra la sua altezza abituale senza il parere di un tecnico dell’arpa.`,
    leverTables: {
      major: 'Maggiore e minore naturale',
      'harmonic minor': 'Minore armonico',
      'melodic minor': 'Minore melodico ascendente',
    },
    key: 'Tonalità',
    toRetune: 'Da accordare',
    up: 'su',
    retune: (letter, to) => `corde di ${letter} in ${to}`,
    glissandi: 'Accordi e scale per i glissandi',
    glissandiLegend:
      'Con queste posizioni ogni corda dà una nota dell’accordo o della scala, e nessun’altra. Tra più posizioni è mostrata quella con meno corde doppie.',
    sounds: {
      'diminished seventh': 'Settima diminuita',
      'dominant ninth': 'Nona di dominante',
      'dominant seventh': 'Settima di dominante',
      'minor seventh': 'Settima minore',
      'half-diminished seventh': 'Settima semidiminuita',
      'major sixth': 'Maggiore con sesta',
      'whole tone': 'Scala esatonale',
      'major pentatonic': 'Pentatonica maggiore',
      'minor pentatonic': 'Pentatonica minore',
      major: 'Maggiore',
      'harmonic minor': 'Minore armonico',
    },
    noSetting: (roots) => `Nessuna posizione dà proprio queste note su ${roots.join(', ')}.`,
    doubled: 'Corde doppie',
    doubledLegend:
      'Due corde vicine possono dare la stessa nota: per note ribattute senza smorzare, per un tremolo su una nota e per un suono più pieno. Tre note restano sole: alle corde vicine servirebbe un doppio diesis o un doppio bemolle.',
    doubledHeads: { pitch: 'Nota', strings: 'Corde', pedals: 'Pedali' },
    oneString: 'una sola',
    twoStrings: 'due',
    oneEachFoot: (pedals) => `${pedals}, uno per piede`,
    bothOneFoot: (pedals, foot) =>
      `${pedals}, entrambi con il piede ${foot === 'left' ? 'sinistro' : 'destro'}`,
    fullest: 'Tre note doppie insieme',
    fullestLegend: (settings, strings) =>
      `Le ${settings} posizioni in cui tre note sono doppie, così che le ${strings} corde di un’ottava danno solo quattro note.`,
    mechanism: 'Come agiscono pedali e dischi',
    mechanismLegend:
      'Sette pedali, uno per ogni nome di nota. Un pedale comanda insieme tutte le corde del suo nome, in tutte le ottave, con aste nella colonna e due dischi per ogni corda.',
    positions: 'Tre posizioni',
    positionsLegend:
      'Ogni disco che stringe la corda la alza di un semitono: suona la parte spessa della corda. Tutti gli altri pedali agiscono allo stesso modo. Nessun pedale dà un doppio diesis o un doppio bemolle: una nota simile si suona su una corda vicina.',
    gives: (name) => `dà ${name}`,
    notches: {
      flat: 'tacca alta, nessun disco',
      natural: 'tacca media, disco superiore',
      sharp: 'tacca bassa, entrambi i dischi',
    },
    twoFeet: 'Due piedi',
    pedalsOfFoot: {
      left: (letters) => `Il piede sinistro ha i pedali ${letters}, da fuori verso dentro.`,
      right: (letters) => `Il piede destro ha i pedali ${letters}, da dentro verso fuori.`,
    },
    twoFeetLegend: (key) =>
      `Visto dal posto di chi suona, qui in ${key}. Un piede muove un pedale alla volta, meglio mentre le corde di quel nome tacciono: una che suona frigge o scivola.`,
    diagram: 'Come si legge uno schema',
    diagramLegend: (setting) =>
      `La stessa posizione come viene stampata: un tratto per ogni pedale nel loro ordine, la linea verticale divide il piede sinistro dal destro. Sopra la linea è bemolle, a cavallo bequadro, sotto diesis: ${setting}.`,
    fixed: 'Corde senza dischi',
    fixedHeads: { strings: 'Corde', range: 'Estensione', fixed: 'Senza dischi', harp: 'Arpa' },
    fixedLegend:
      'Nessun pedale muove queste corde. Si accordano a mano prima del brano secondo il bisogno, e tengono quella nota. Non accordare nessuna corda sopra la sua altezza abituale senza il parere di un tecnico dell’arpa.',
    noFixed: 'nessuna',
    pedalHarp: (strings) => `Arpa a pedali, ${strings} corde`,
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
    refused: 'Non in questa raccolta',
  },
};
