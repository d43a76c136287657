import { withComma } from '../decimal-comma.ts';
import type { AdviceSentences } from '../finding-words.ts';
import { type ProofPhrases, proofSentences } from '../proof-phrases.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

const place = (bar: string, beat: string): string => `battuta ${bar}, tempo ${beat}`;

const PHRASES: ProofPhrases = {
  noMarkings: {
    pedal: 'La parte non ha indicazioni di pedale: non c’è nulla da controllare.',
    lever: 'La parte non ha indicazioni di levetta: non c’è nulla da controllare.',
  },
  unclear: {
    pedal: (words) => `Le parole «${words}» sembrano nominare pedali, ma non è chiaro quali.`,
    lever: (words) => `Le parole «${words}» sembrano parlare di levette, ma non è chiaro di quali.`,
  },
  unknown: (letters) =>
    `Nulla dice come ${letters.length === 1 ? 'sta qui il pedale' : 'stanno qui i pedali'} ${list(letters)}: nessuna indicazione ne ha parlato.`,
  ornamentOn: (note) => `l’abbellimento su ${note}`,
  by: (where) => (where === null ? 'dall’inizio' : `secondo l’indicazione a ${place(where.bar, where.beat)}`),
  times: (passes) => (passes.length === 0 ? '' : ` la ${list(passes.map((each) => `${each}ª`))} volta`),
  stillHeld: (change, note, needed) =>
    `${change} è indicato troppo presto: ${note} è ancora tenuto e richiede ${needed}.`,
  soundsWrong: (note, times, { needed, stands, by }) =>
    `${note} suonerà sbagliato${times}: serve ${needed}, ma ${by} si ha ${stands}.`,
  soundsWrongOnReturn: (note, bar, { needed, stands, by }) =>
    `Quando la musica torna a battuta ${bar}, ${note} suonerà sbagliato: serve ${needed}, ma ${by} si ha ${stands}.`,
  tooQuick: (foot, change, note, bar, seconds) =>
    `Il piede ${foot === 'left' ? 'sinistro' : 'destro'} non riesce a mettere ${change} in tempo per ${note} a battuta ${bar}: dopo il suo ultimo cambio gli mancano ${withComma(seconds, 2)} s.`,
  contradict: (first, second) =>
    `Non si può sapere che cosa mettere: qui una indicazione dice ${first}, un’altra ${second}.`,
  needless: {
    stands: {
      pedal: (change) => `${change} è indicato, ma il pedale sta già così.`,
      lever: (change) => `${change} è indicato, ma la levetta sta già così.`,
    },
    unasked: {
      pedal: (change) =>
        `${change} è indicato, ma nessuna nota lo richiede prima che il pedale si muova di nuovo.`,
      lever: (change) =>
        `${change} è indicato, ma nessuna nota lo richiede prima che la levetta si muova di nuovo.`,
    },
    twice: (change) => `${change} è indicato qui due volte.`,
  },
  bends: (change, note) => `${change} è indicato mentre ${note} suona ancora, e piegherebbe la nota.`,
  late: (change, note) => `${change} arriva in tempo per ${note}, ma è indicato più tardi del necessario.`,
  early: (change, note) => `${change} è indicato molto prima di ${note}: bisogna tenerlo a mente.`,
  glissando: (sounding, expected) =>
    `Secondo le indicazioni il glissando suonerà ${list(sounding)}, ma le sue note e l’armatura dicono ${list(expected)}.`,
  noSuchLever: (name) => `${name} è indicato, ma quest’arpa non ha una levetta su una corda così.`,
  notInTuning: (name, tuning) =>
    `${name} è indicato, ma con le corde accordate in ${tuning} nessuna levetta lo dà.`,
  startUntold:
    'Nessuna indicazione dice come stanno le levette all’inizio: si suppone ciò che chiede l’armatura.',
  noHand: (change, note, bar) =>
    `Nessuna mano è libera per mettere ${change} tra la sua indicazione e ${note} a battuta ${bar}.`,
  tooClose: (change, note, bar) =>
    `${change} è indicato troppo vicino a un altro cambio: nessuna mano riesce a farli tutti e due prima di ${note} a battuta ${bar}.`,
};

const ADVICE: AdviceSentences = {
  'annotate-first': () => 'Annotare prima la parte.',
  'name-pedals': () => 'Scrivere ogni pedale con la sua lettera e ♭, ♮ o ♯.',
  'name-levers': () =>
    'Scrivere ogni levetta con la sua lettera, ♭, ♮ o ♯ e l’ottava della corda, oppure con «up» o «down».',
  'print-missing': ({ changes }, names) =>
    `Scrivere ${changes.map(names.change).join(', ')}, se questo si intende: è ciò che manca in questa battuta.`,
  'print-levers-up': () => 'Scrivere prima della prima nota quali levette sono su.',
  'note-against-note': ({ rival, other }, names) =>
    `Nessuna indicazione può aiutare, perché un’altra nota richiede insieme ${names.change(rival)}: ${other === null ? 'ometterla' : `suonarla come ${names.pitch(other)}`}, o darla a un’altra arpa.`,
  'lever-against-lever': ({ rival }, names) =>
    `Nessuna indicazione può aiutare, perché un’altra nota richiede insieme ${names.lever(rival)}: ometterne una, o darla a un’altra arpa.`,
  'respell-or-wait': () => 'Oppure suonare una delle note su un’altra corda, o prendersi qui più tempo.',
  'omit-or-wait': () => 'Oppure omettere una nota per la mano, o prendersi qui più tempo.',
  'too-many-mistakes': () =>
    'Gli errori sono troppi per provare ogni rimedio. Fare prima le altre correzioni, poi controllare di nuovo.',
};

const FIXES: Words['proof']['fixes'] = {
  place,
  fullSetting: 'la posizione completa',
  marking: (names) => `l’indicazione ${names}`,
  add: (names, where) => `aggiungere ${names} a ${where}`,
  addSetting: (setting, where) => `scrivere la posizione completa ${setting} a ${where}`,
  print: (name, instead, where) => `scrivere ${name} invece di ${instead} a ${where}`,
  move: (marking, from, to) => `spostare ${marking} da ${from} a ${to}`,
  remove: (marking, where) => `togliere ${marking} a ${where}`,
  and: ', e ',
};

export const PROOF_WORDS: Words['proof'] = {
  nothing: 'Niente da correggere',
  faults: 'Gli errori, e come correggerli',
  edits: 'Tutte le correzioni',
  inFile: 'Nel file',
  right: {
    pedal: 'Ogni nota trova il suo pedale, e i piedi hanno tempo.',
    lever: 'Ogni nota trova la sua levetta, e per ogni cambio una mano ha tempo.',
  },
  sentences: proofSentences(PHRASES),
  advice: ADVICE,
  fixes: FIXES,
  leverFixes: {
    ...{ place, add: FIXES.add, and: FIXES.and, list },
    words: (text, where) => `«${text}» a ${where}`,
    smallNote: (text, where) => `la piccola nota ${text} a ${where}`,
    print: (names, text) => `per ${text}, scrivere ${names}`,
    printInstead: (names, instead, text) => `per ${text}, scrivere ${names} invece di ${instead}`,
    move: (names, text, to) => `spostare ${names} a ${to}, da dove sta ${text}`,
    remove: (names, text) => `togliere ${names}, dove sta ${text}`,
  },
};
