import { withComma } from '../decimal-comma.ts';
import type { AdviceSentences } from '../finding-words.ts';
import { type ProofPhrases, proofSentences } from '../proof-phrases.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

const place = (bar: string, beat: string): string => `compás ${bar}, tiempo ${beat}`;

const PHRASES: ProofPhrases = {
  noMarkings: {
    pedal: 'La parte no tiene indicaciones de pedal: no hay nada que revisar.',
    lever: 'La parte no tiene indicaciones de palanca: no hay nada que revisar.',
  },
  unclear: {
    pedal: (words) => `Las palabras «${words}» parecen nombrar pedales, pero no está claro cuáles.`,
    lever: (words) => `Las palabras «${words}» parecen hablar de palancas, pero no está claro de cuáles.`,
  },
  unknown: (letters) =>
    `Nada dice cómo ${letters.length === 1 ? 'está aquí el pedal' : 'están aquí los pedales'} ${list(letters)}: ninguna indicación lo ha dicho.`,
  ornamentOn: (note) => `el adorno sobre ${note}`,
  by: (where) =>
    where === null ? 'desde el comienzo' : `según la indicación del ${place(where.bar, where.beat)}`,
  times: (passes) => (passes.length === 0 ? '' : ` la ${list(passes.map((each) => `${each}.ª`))} vez`),
  stillHeld: (change, note, needed) =>
    `${change} está indicado demasiado pronto: ${note} todavía se mantiene y requiere ${needed}.`,
  soundsWrong: (note, times, { needed, stands, by }) =>
    `${note} sonará mal${times}: hace falta ${needed}, pero ${by} hay ${stands}.`,
  soundsWrongOnReturn: (note, bar, { needed, stands, by }) =>
    `Cuando la música vuelve al compás ${bar}, ${note} sonará mal: hace falta ${needed}, pero ${by} hay ${stands}.`,
  tooQuick: (foot, change, note, bar, seconds) =>
    `El pie ${foot === 'left' ? 'izquierdo' : 'derecho'} no puede poner ${change} a tiempo para ${note} en el compás ${bar}: tras su último cambio le faltan ${withComma(seconds, 2)} s.`,
  contradict: (first, second) =>
    `No se puede saber qué poner: aquí una indicación dice ${first}, otra ${second}.`,
  needless: {
    stands: {
      pedal: (change) => `${change} está indicado, pero el pedal ya está así.`,
      lever: (change) => `${change} está indicado, pero la palanca ya está así.`,
    },
    unasked: {
      pedal: (change) =>
        `${change} está indicado, pero ninguna nota lo necesita antes de que el pedal vuelva a moverse.`,
      lever: (change) =>
        `${change} está indicado, pero ninguna nota lo necesita antes de que la palanca vuelva a moverse.`,
    },
    twice: (change) => `${change} está indicado aquí dos veces.`,
  },
  bends: (change, note) => `${change} está indicado mientras ${note} suena todavía, y torcería la nota.`,
  late: (change, note) =>
    `${change} llega a tiempo para ${note}, pero está indicado más tarde de lo necesario.`,
  early: (change, note) => `${change} está indicado mucho antes de ${note}: hay que tenerlo en la memoria.`,
  glissando: (sounding, expected) =>
    `Según las indicaciones el glissando sonará ${list(sounding)}, pero sus notas y la armadura dicen ${list(expected)}.`,
  noSuchLever: (name) => `${name} está indicado, pero esta arpa no tiene palanca en una cuerda así.`,
  notInTuning: (name, tuning) =>
    `${name} está indicado, pero con las cuerdas afinadas en ${tuning} ninguna palanca lo da.`,
  startUntold:
    'Ninguna indicación dice cómo están las palancas al comienzo: se supone lo que pide la armadura.',
  noHand: (change, note, bar) =>
    `Ninguna mano está libre para poner ${change} entre su indicación y ${note} en el compás ${bar}.`,
  tooClose: (change, note, bar) =>
    `${change} está indicado demasiado cerca de otro cambio: ninguna mano puede hacer los dos antes de ${note} en el compás ${bar}.`,
};

const ADVICE: AdviceSentences = {
  'annotate-first': () => 'Anote antes la parte.',
  'name-pedals': () => 'Escriba cada pedal con su letra y ♭, ♮ o ♯.',
  'name-levers': () =>
    'Escriba cada palanca con su letra, ♭, ♮ o ♯ y la octava de su cuerda, o con «up» o «down».',
  'print-missing': ({ changes }, names) =>
    `Escriba ${changes.map(names.change).join(', ')}, si es lo que quiere decir: es lo que falta en este compás.`,
  'print-levers-up': () => 'Escriba antes de la primera nota qué palancas están subidas.',
  'note-against-note': ({ rival, other }, names) =>
    `Ninguna indicación puede ayudar, porque otra nota necesita a la vez ${names.change(rival)}: ${other === null ? 'omitirla' : `tocarla como ${names.pitch(other)}`}, o darla a otra arpa.`,
  'lever-against-lever': ({ rival }, names) =>
    `Ninguna indicación puede ayudar, porque otra nota necesita a la vez ${names.lever(rival)}: omitir una, o darla a otra arpa.`,
  'respell-or-wait': () => 'O tocar una de las notas en otra cuerda, o tomarse aquí más tiempo.',
  'omit-or-wait': () => 'U omitir una nota para la mano, o tomarse aquí más tiempo.',
  'too-many-mistakes': () =>
    'Hay demasiadas faltas para probar todos los remedios. Haga primero las otras correcciones y luego revise de nuevo.',
};

const FIXES: Words['proof']['fixes'] = {
  place,
  fullSetting: 'la posición completa',
  marking: (names) => `la indicación ${names}`,
  add: (names, where) => `añadir ${names} en el ${where}`,
  addSetting: (setting, where) => `escribir la posición completa ${setting} en el ${where}`,
  print: (name, instead, where) => `escribir ${name} en lugar de ${instead} en el ${where}`,
  move: (marking, from, to) => `pasar ${marking} del ${from} al ${to}`,
  remove: (marking, where) => `quitar ${marking} del ${where}`,
  and: ', y ',
};

export const PROOF_WORDS: Words['proof'] = {
  nothing: 'Nada que corregir',
  faults: 'Las faltas, y cómo corregirlas',
  edits: 'Todas las correcciones',
  inFile: 'En el archivo',
  right: {
    pedal: 'Cada nota encuentra su pedal, y los pies tienen tiempo.',
    lever: 'Cada nota encuentra su palanca, y para cada cambio una mano tiene tiempo.',
  },
  sentences: proofSentences(PHRASES),
  advice: ADVICE,
  fixes: FIXES,
  leverFixes: {
    ...{ place, add: FIXES.add, and: FIXES.and, list },
    words: (text, where) => `«${text}» en el ${where}`,
    smallNote: (text, where) => `la nota pequeña ${text} en el ${where}`,
    print: (names, text) => `escribir ${names} en ${text}`,
    printInstead: (names, instead, text) => `escribir ${names} en lugar de ${instead} en ${text}`,
    move: (names, text, to) => `pasar ${names} de ${text} al ${to}`,
    remove: (names, text) => `quitar ${names} de ${text}`,
  },
};
