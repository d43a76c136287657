import {
  type ChangedNotes,
  isHigher,
  type NoteNames,
  type NoteOfTwo,
  nameHeardString,
} from '../../../engine/index.ts';
import { exactWithComma } from '../decimal-comma.ts';
import type { HelpSentences } from '../finding-words.ts';
import { count, inBar, list } from './phrases.ts';

const HANDS = { left: 'la mano izquierda', right: 'la mano derecha' } as const;
const TECHNICIAN =
  'Subir una cuerda por encima de su altura fuerza la cuerda y la tabla armónica: pregunte antes a un técnico de arpas.';

/** Names of ornaments from memory. */
const REPEATED = {
  tremolo: 'el trémolo sobre',
  glissando: 'el glissando desde',
  trill: 'el trino sobre',
  ornament: 'el adorno sobre',
} as const;

const inBars = (bars: ChangedNotes['bars']): string => {
  const spans = bars.map(({ from, until }) => (from === until ? from : `${from}–${until}`));
  return spans.length === 1 && spans[0] === bars[0]!.from
    ? inBar(spans[0])
    : `en los compases ${list(spans)}`;
};

const ofTwo = (which: NoteOfTwo, pitch: string): string =>
  ({
    either: `una de las dos notas ${pitch}`,
    first: `el primer ${pitch}`,
    grace: `la nota pequeña ${pitch}`,
    second: `el segundo ${pitch}`,
    only: `el ${pitch}`,
  })[which];

const atBeats = (beats: readonly string[]): string =>
  beats.length === 0 ? '' : `, ${beats.length === 1 ? 'tiempo' : 'tiempos'} ${list(beats)}`;

const STAVES = {
  'upper-staff': 'del pentagrama superior',
  'lower-staff': 'del pentagrama inferior',
} as const;

const changed = (
  { from, to, bars, beats, isGrace, twin, ornament, notes }: ChangedNotes,
  names: NoteNames,
): string => {
  const name = list(from.map(names.pitch));
  const note = isGrace ? ofTwo('grace', name) : `${twin === 'main-note' ? 'la nota principal ' : ''}${name}`;
  const plain =
    twin === null || twin === 'main-note'
      ? note
      : twin === 'either'
        ? ofTwo('either', name)
        : `${note} ${STAVES[twin]}`;
  const what =
    ornament === null
      ? plain
      : `${REPEATED[ornament.what]} ${plain} con ${list(ornament.neighbours.map(names.pitch))}`;
  const where = `${inBars(bars)}${atBeats(beats)}${notes === from.length ? '' : ` (${notes} notas)`}`;
  return to === null
    ? `Omita ${what} ${where}.`
    : `Escriba ${list(to.map(names.pitch))} por ${what} ${where}.`;
};

export const HELP_SENTENCES: HelpSentences = {
  'change-notes': ({ changes }, names) => changes.map((each) => changed(each, names)).join(' '),
  'write-for': ({ from, to }, names) => `Escriba ${names.pitch(to)} por ${names.pitch(from)}.`,
  'write-on-fixed-string': ({ to, string, tuned }, names) =>
    tuned
      ? `Escriba ${names.pitch(to)}: la cuerda ${names.string(string)} ya está afinada así para esta pieza.`
      : `Escriba ${names.pitch(to)} y afine así la cuerda ${names.string(string)} antes de la pieza.`,
  'one-hand-only': ({ pitch, hand }, names) =>
    `Toque ${names.pitch(pitch)} solo con la mano ${hand === 'left' ? 'izquierda' : 'derecha'}.`,
  'write-one-as': ({ which, pitch, to }, names) =>
    `Escriba ${ofTwo(which, names.pitch(pitch))} como ${names.pitch(to)}.`,
  'leave-out-first': ({ pitch, isGrace }, names) =>
    `Omita ${ofTwo(isGrace ? 'grace' : 'first', names.pitch(pitch))}.`,
  'leave-one-out': () => 'Omita una de las notas.',
  'into-range': ({ pitch, to }, names) => `Toque ${names.pitch(to)} en lugar de ${names.pitch(pitch)}.`,
  'octave-or-leave-out': ({ pitch, to }, names) =>
    `Toque ${names.pitch(pitch)} una octava más ${isHigher(to, pitch) ? 'arriba' : 'abajo'} (${names.pitch(to)}), u omítalo.`,
  'octave-stands-there': ({ pitch, to }, names) =>
    `Omita ${names.pitch(pitch)}: ${names.pitch(to)}, a una octava de distancia, ya está ahí.`,
  'replace-note': () => 'Sustituya la nota.',
  'or-leave-out': () => 'U omita la nota.',
  'leave-note-out': () => 'Omita la nota.',
  'ask-technician': () => TECHNICIAN,
  'retune-another': () => 'Afine de otro modo otra cuerda, o sustituya la nota.',
  'retune-strings': ({ tuned, lost }, names) => {
    const strings = tuned.map(
      ({ string, cents }) =>
        `${names.string(string)} ${Math.abs(cents)} cents más ${cents > 0 ? 'alto' : 'bajo'}`,
    );
    const price =
      lost.length === 0
        ? 'todas las demás notas se pueden tocar.'
        : `pero entonces ninguna cuerda da ${list(lost.map(names.pitch))}.`;
    const raised = tuned.some(({ cents }) => cents > 0) ? ` ${TECHNICIAN}` : '';
    return `Afine ${list(strings)} antes de la pieza: ${price}${raised}`;
  },
  'retuning-is-no-help': () => 'Afinar cuerdas de otro modo no ayuda.',
  'tune-to-play': ({ tuning, missingNotes, changes, withoutTime }, names) =>
    `Afine en ${names.tuning(tuning)} para tocarla; a la pieza le ${missingNotes === 1 ? 'falta' : 'faltan'} entonces ${count(missingNotes, 'nota', 'notas')}, y tiene ${count(changes, 'cambio de palanca', 'cambios de palanca')}${withoutTime === 0 ? '' : `, de ellos ${withoutTime} sin tiempo`}.`,
  'no-tuning-helps': ({ note, isGiven }, names) =>
    isGiven
      ? `Otra afinación no ayuda: donde las cuerdas dan cada ${names.note(note)}, otro tanto no se puede tocar, o más.`
      : `Otra afinación no ayuda: ninguna da aquí cada ${names.note(note)}.`,
  'tune-instead': ({ tuning, changes }, names) =>
    changes === 0
      ? `Afine mejor en ${names.tuning(tuning)}: entonces no cambia ninguna palanca.`
      : `Afine mejor en ${names.tuning(tuning)}: entonces una mano tiene tiempo para cada cambio (${changes} en total).`,
  'write-in-key': ({ tonic }, names) =>
    `Escriba la parte de arpa en ${names.majorKey(tonic)} o en su relativo menor.`,
  'change-marking': ({ needed }, names) => `Cambie la indicación por ${names.change(needed)}.`,
  'state-glissando': ({ what, glissandi }) =>
    `Indique en la partitura ${what === 'setting' ? 'la posición de los pedales' : 'las notas'} ${glissandi === 1 ? 'del glissando' : 'de estos glissandi'}.`,
  'damp-earlier': ({ letter, sounding }, names) =>
    `Apague ${sounding.length === 0 ? `el ${names.letter(letter)} anterior` : list(sounding.map((each) => nameHeardString(each, names)))} antes del cambio, o ${sounding.length > 1 ? 'acórtelos' : 'acórtelo'}.`,
  'damp-string': () => 'Apague la cuerda antes del cambio, o acorte su nota.',
  'move-harmonic': ({ range }, names) =>
    `Pase el armónico a una cuerda de ${names.string(range.lowest)} a ${names.string(range.highest)}, o tóquelo como nota ordinaria.`,
  'more-time': () => 'Tómese aquí más tiempo.',
  'more-time-or-second-harp': () => 'Tómese aquí más tiempo, o dé una nota a otra arpa.',
  'more-time-or-leave-out': () => 'Tómese aquí más tiempo, u omita una nota en una de las dos cuerdas.',
  'more-time-for-feet': () =>
    'Tómese aquí más tiempo, toque notas en cuerdas vecinas, o reparta el pasaje con otra arpa.',
  'more-time-for-hands': () => 'Tómese aquí más tiempo, o afine de modo que cambien menos palancas.',
  'unhurried-at': ({ percent }) => `Al ${percent} % del tempo estos cambios se hacen sin prisa.`,
  'more-time-for-lever': () =>
    'Dé más tiempo a la mano que pone la palanca, o toque la nota un instante después.',
  'rest-before-note': ({ seconds }) =>
    `Dé a una mano un silencio de ${exactWithComma(seconds)} s antes de la nota, o toque la nota en otra octava.`,
  'rest-for-hand': ({ hand }) => `Dé aquí un silencio a ${HANDS[hand]}.`,
  'second-harp': () => 'Dé una de las notas a otra arpa.',
  'end-earlier': ({ what, on, before }, names) =>
    `Termine ${REPEATED[what]} ${names.pitch(on)} antes del ${names.pitch(before)}.`,
  'other-hand-takes': ({ hand, pitches }, names) =>
    `Toque ${list(pitches.map(names.pitch))} con ${HANDS[hand]}.`,
  'leave-out-of-chord': ({ notes, isBroken }) =>
    `${isBroken ? 'Omita' : 'Arpegie el acorde, u omita'} ${count(notes, 'nota', 'notas')}.`,
  'break-chord': () => 'Arpegie el acorde.',
  'leave-out-harmonic': () => 'Omita un armónico, o toque uno como nota ordinaria.',
  'tremolo-of-two': ({ pitches }, names) =>
    pitches === null
      ? 'Escriba un trémolo entre dos notas.'
      : `Escriba el trémolo entre ${list(pitches.map(names.pitch))}, dos cuerdas con la misma altura.`,
  'shorten-quiet-passage': ({ without }) =>
    `Acorte el pasaje sin ${without === 'moves' ? 'movimientos' : 'cambios'}.`,
  'move-pin': () => 'Mueva o quite lo que está fijado aquí.',
  'pin-elsewhere': () => 'Fije uno de los dos movimientos en otro momento.',
  'plan-one-player': () =>
    'Prevea las notas de un solo intérprete (opción «player»), donde palabras o plicas dicen de quién son.',
  'part-for-each-player': () =>
    'Haga una parte para cada intérprete, solo con sus notas, y prevea cada una por separado.',
  'mark-players': () => 'Escriba «I», «II» o «a 2» sobre las notas, o dé a cada intérprete una voz propia.',
};
