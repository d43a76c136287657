import type { PassageSentences } from '../../../engine/index.ts';
import {
  afterSentence,
  FINGERS,
  isNoTime,
  type NoteNames,
  nameHeardString,
  type OrnamentNote,
  type RingingFacts,
  tellBySides,
} from '../../../engine/index.ts';
import { withComma } from '../decimal-comma.ts';
import type { FindingSentences } from '../finding-words.ts';
import { count, inBar, list } from './phrases.ts';

const HANDS = { left: 'La mano izquierda', right: 'La mano derecha' } as const;
const FEET = { left: 'El pie izquierdo', right: 'El pie derecho' } as const;
const LEVERS = { up: 'subida', down: 'bajada' } as const;
const OTHER_WAY = { up: 'bajada', down: 'subida' } as const;

/** What the foot moved last. */
const LAST_MOVED = {
  'the same': 'acaba de mover el mismo pedal',
  another: 'acaba de mover otro pedal',
  together: 'mueve a la vez otro pedal',
} as const;

const stretch = (seconds: number): string =>
  isNoTime(seconds, 1) ? 'a la vez' : `en ${withComma(seconds, 1)} s`;

const byStaff = (guessed: boolean): string => (guessed ? ' La mano se deduce del pentagrama.' : '');

const byStaves = (guessed: boolean): string => (guessed ? ' Las manos se deducen de los pentagramas.' : '');

const inRun = ({ from, until }: { readonly from: string; readonly until: string }): string =>
  from === until || from === '' || until === '' ? inBar(from) : `en los compases ${from}–${until}`;

const nameSounding = (
  { change, sounding }: RingingFacts & { readonly harp: 'pedal' },
  names: NoteNames,
): string =>
  sounding.length === 0
    ? `un ${names.letter(change.letter)} anterior aún suena`
    : `${list(sounding.map((each) => nameHeardString(each, names)))} ${sounding.length === 1 ? 'aún suena' : 'aún suenan'}`;

/** Names of ornaments from memory. */
const OF_ORNAMENT = { trill: 'al trino', ornament: 'al adorno' } as const;

const belonging = (notes: readonly OrnamentNote[], names: NoteNames): string =>
  afterSentence(
    notes,
    (note) =>
      `El ${names.pitch(note.pitch)} pertenece ${OF_ORNAMENT[note.what]} sobre ${names.pitch(note.on)}.`,
  );

export const FINDING_SENTENCES: FindingSentences = {
  'string-for-both-hands': ({ string, guessed }, names) =>
    `Las dos manos deben pulsar a la vez la misma cuerda: ${names.pitch(string)}.${byStaves(guessed)}`,
  'too-many-notes-in-hand': ({ hand, notes, guessed }) =>
    `${HANDS[hand]} tiene ${notes} notas que tocar a la vez, pero solo toca con ${FINGERS} dedos.${byStaff(guessed)}`,
  'stretch-too-wide': ({ lowest, highest, guessed }, names) =>
    `La extensión de ${names.pitch(lowest)} a ${names.pitch(highest)} es demasiado amplia para una mano: pasa de la décima.${byStaff(guessed)}`,
  'string-restruck-fast': ({ string, seconds, again }, names) => {
    const gap = `${withComma(seconds, 2)} s`;
    const name = `La cuerda ${names.pitch(string)} se pulsa de nuevo`;
    if (again === 'tremolo') return `${name} cada ${gap}, antes de poder sonar.`;
    if (again === 'same') return `${name} a solo ${gap}, antes de poder sonar.`;
    return `${name} a solo ${gap} como ${names.pitch(again)}: apenas hay tiempo de cambiar su altura.`;
  },
  'harmonic-out-of-range': ({ string, range }, names) =>
    `El armónico en la cuerda ${names.pitch(string)} no sonará bien: las cuerdas buenas van de ${names.string(range.lowest)} a ${names.string(range.highest)}.`,
  'too-many-harmonics': ({ hand, harmonics, most, guessed }) =>
    `${HANDS[hand]} tiene ${harmonics} armónicos que tocar a la vez, pero solo puede tocar ${most}.${byStaff(guessed)}`,
  'strings-to-retune': ({ tuning, usual, changes }, names) =>
    `Antes de la pieza, afine las cuerdas al aire de ${names.tuning(usual)} a ${names.tuning(tuning)}: ${list(changes.map(names.change))}.`,
  'no-string-in-tuning': ({ note, tuning, notes }, names) =>
    `En la afinación de ${names.tuning(tuning)} ninguna cuerda da ${names.note(note)}, con la palanca subida o bajada${notes > 1 ? ` (${notes} notas)` : ''}.`,
  'no-free-hand': ({ pitch, why }, names) =>
    why === 'hands-play'
      ? `Ninguna mano está libre para poner la palanca de ${names.pitch(pitch)}.`
      : `No hay tiempo de poner la palanca de ${names.pitch(pitch)} antes de que se pulse su cuerda.`,
  'hand-too-busy': ({ pitch }, names) =>
    `No hay tiempo de poner la palanca de ${names.pitch(pitch)}: otra acaba de ponerse.`,
  'other-hand-taken': ({ pitch, hand }, names) =>
    `${HANDS[hand]} debe poner la palanca de ${names.pitch(pitch)}, porque la otra no tiene tiempo.`,
  'lever-short-lead': ({ pitch, hand, seconds }, names) =>
    `${HANDS[hand]} pone la palanca de ${names.pitch(pitch)} solo ${withComma(seconds, 2)} s antes de que se pulse su cuerda: una palanca que no llega al tope zumba.`,
  'lever-far-ahead': ({ pitch, hand, seconds }, names) =>
    `${HANDS[hand]} pone la palanca de ${names.pitch(pitch)} ${Math.round(seconds)} s antes de que se toque la nota.`,
  'hands-hurried-passage': ({ moves, seconds, left, right }) =>
    `Las manos deben apresurarse: ${moves} cambios de palanca ${stretch(seconds)}, ${tellBySides({ left, right }, { both: `${left} de la mano izquierda y ${right} de la derecha`, allOf: (side) => `todos de la mano ${side === 'left' ? 'izquierda' : 'derecha'}` })}.`,
  'lever-restored': ({ pitch, elsewhere }, names) =>
    `${names.pitch(pitch)} es para la repetición: la palanca está entonces en ${names.pitch(elsewhere)}.`,
  'lever-pin-not-honoured': (facts, names) => {
    const lever = `Palanca de ${names.string(facts.string)} ${LEVERS[facts.to]}`;
    switch (facts.why) {
      case 'no-changes-here':
        return `${lever}: hay que ponerla aquí, donde no se permiten cambios.`;
      case 'note':
        return `${lever}: no se puede fijar aquí, porque una nota ${inBar(facts.bar)} la necesita ${OTHER_WAY[facts.to]}.`;
      case 'pin':
        return `${lever}: no se puede fijar aquí, porque ya está fijada ${OTHER_WAY[facts.to]}.`;
      case 'no-moment':
        return `${lever}: no se puede fijar aquí, porque en este lugar no hay nota ni tiempo.`;
      case 'no-lever':
        return `${lever}: no se puede fijar, porque esta arpa no tiene esa palanca.`;
    }
  },
  'foot-too-busy': ({ foot, change, last }, names) =>
    `${FEET[foot]} no tiene tiempo para ${names.change(change)}: ${LAST_MOVED[last]}.`,
  'pedal-in-two-positions': ({ change, rival, ofOrnaments }, names) => {
    const letter = names.letter(change.letter);
    const clash =
      rival === null
        ? `El pedal de ${letter} no puede estar aquí en ${names.change(change)}.`
        : `El pedal de ${letter} tendría que estar a la vez en ${names.change(change)} y ${names.change(rival)}: mueve todas las cuerdas de ${letter}.`;
    return `${clash}${belonging(ofOrnaments, names)}`;
  },
  'pedals-together': ({ foot, change }, names) =>
    `${FEET[foot]} debe mover a la vez ${names.change(change)} y el pedal de al lado.`,
  'foot-crossed': ({ foot, change }, names) =>
    `${FEET[foot]} debe pasar al otro lado para ${names.change(change)}, porque el otro no tiene tiempo.`,
  'feet-hurried-passage': ({ moves, seconds, left, right }) =>
    `Los pies deben apresurarse: ${moves} movimientos ${stretch(seconds)}, ${tellBySides({ left, right }, { both: `${left} del pie izquierdo y ${right} del derecho`, allOf: (side) => `todos del pie ${side === 'left' ? 'izquierdo' : 'derecho'}` })}.`,
  'repeat-restored': ({ change, elsewhere }, names) =>
    `${names.change(change)} es para la repetición: el pedal está entonces en ${names.change(elsewhere)}.`,
  'pin-not-honoured': (facts, names) => {
    const change = names.change(facts.change);
    switch (facts.why) {
      case 'no-moves-here':
        return `Hay que poner ${change} aquí, donde no se permiten movimientos.`;
      case 'needed-earlier':
        return `Hay que poner ${change} aquí, antes de donde está fijado: una nota lo necesita antes.`;
      case 'foot-busy':
        return `Hay que poner ${change} aquí, antes de donde está fijado: allí ${FEET[facts.foot].toLowerCase()} está ocupado con otro pedal.`;
      case 'note':
        return `No se puede fijar ${change} aquí: una nota ${inBar(facts.bar)} necesita ${names.change(facts.needed)}.`;
      case 'fixed-already':
        return `No se puede fijar ${change} aquí: ya está fijado ${names.change(facts.fixed)}.`;
      case 'no-moment':
        return `No se puede fijar ${change} aquí: en este lugar no hay nota ni tiempo.`;
    }
  },
  'marking-contradicts-notes': ({ marked, needed, bar }, names) =>
    `Según la indicación impresa ${names.change(marked)}, el siguiente ${names.letter(needed.letter)} sonaría mal: ${inBar(bar)} es ${names.change(needed)}. Este plan sigue la nota.`,
  'out-of-range': ({ pitch, range, ofOrnaments }, names) =>
    `El arpa no tiene cuerda para ${names.pitch(pitch)}: sus cuerdas van de ${names.string(range.lowest)} a ${names.string(range.highest)}.${belonging(ofOrnaments, names)}`,
  'string-in-two-pitches': ({ string, rivals, ofOrnaments }, names) => {
    const named = rivals.map((each) => ('position' in each ? names.change(each) : names.pitch(each)));
    const clash =
      named.length < 2
        ? `La cuerda ${names.string(string)} no puede dar aquí ${named.join('')}.`
        : `La cuerda ${names.string(string)} tendría que dar a la vez ${list(named)}.`;
    return `${clash}${belonging(ofOrnaments, names)}`;
  },
  'quarter-tone': ({ pitch, harp }, names) =>
    `${names.pitch(pitch)} no se puede tocar: está entre dos semitonos, y ${harp === 'pedal' ? 'ningún pedal' : 'ninguna palanca'} lo da.`,
  'double-accidental': ({ from, to }, names) =>
    `Ninguna cuerda da ${names.pitch(from)} con ese nombre: se toca como ${names.pitch(to)}.`,
  'played-on-other-string': ({ from, to, isOfOrnament, times, fromBar }, names) => {
    const subject = isOfOrnament ? `El ${names.pitch(from)} del adorno` : names.pitch(from);
    const first = fromBar === '' ? '' : `, desde el compás ${fromBar}`;
    const often = times > 1 ? ` (en ${times} lugares${first})` : '';
    return `${subject} se toca en la cuerda ${names.string(to)}, como ${names.pitch(to)}${often}.`;
  },
  'fixed-string-tuning': ({ string, change }, names) =>
    `Ningún pedal actúa sobre la cuerda ${names.string(string)}: afínela en ${names.tunedTo(change)} antes de la pieza.`,
  'fixed-string-in-two-pitches': ({ pitch }, names) =>
    `${names.pitch(pitch)} no se puede tocar: ningún pedal actúa sobre su cuerda, y la pieza le pide otra altura.`,
  'string-retuned': (facts, names) => tellRetuned(facts, names),
  'string-tuned-higher': (facts, names) => tellRetuned(facts, names),
  'pitch-lost-by-retuning': ({ pitch }, names) =>
    `${names.pitch(pitch)} no se puede tocar: su cuerda está afinada de otro modo, y ninguna otra lo da.`,
  'octaves-differ': ({ pitches: [one, other] }, names) =>
    `${names.pitch(one)} y ${names.pitch(other)} solo se tocan juntos tal como están escritos en el arpa de palancas: en el arpa de pedales un pedal mueve las dos cuerdas.`,
  'ringing-string-moved': (facts, names) =>
    facts.harp === 'pedal'
      ? `Hay que poner ${names.change(facts.change)} mientras ${nameSounding(facts, names)}: el cambio se oirá.`
      : `Hay que poner la palanca de ${names.pitch(facts.pitch)} mientras su cuerda aún suena: el cambio se oirá.`,
  'glissando-setting-guessed': ({ letters, setting, glissandi, untilBar }, names) => {
    const until = untilBar === null ? '' : ` de aquí al compás ${untilBar}`;
    const whose = glissandi === 1 ? 'este glissando' : `${glissandi} glissandi${until}`;
    const taken = letters.map((letter) => names.change({ letter, position: setting[letter] }));
    return `${list(letters.map(names.letter))}: alteración no indicada para ${whose}; según la armadura, ${list(taken)}.`;
  },
  'flat-key-rings-fuller': ({ sharps, twin }, names) =>
    `Desde aquí el arpa suena menos: los ${sharps} sostenidos de la armadura acortan las cuerdas. ${names.majorKey(twin)} suena a la misma altura y con más cuerpo.`,
  'shared-notes-kept': ({ player, bars }) =>
    `Nada dice qué notas ${list(bars.map(inRun))} son para el intérprete ${player}: están previstas todas.`,
  'written-for-several': ({ players, dividedFrom }) =>
    `La parte está escrita para ${players} intérpretes, pero prevista como si uno solo tocara todas las notas${
      dividedFrom.length === 0
        ? ''
        : `; los intérpretes se dividen ${list([...new Set(dividedFrom)].map(inBar))}`
    }.`,
};

const tellRetuned: FindingSentences['string-retuned'] = ({ tuned }, names) => {
  const each = tuned.map(
    ({ string, cents }) =>
      `${names.string(string)} ${Math.abs(cents)} cents más ${cents > 0 ? 'alto' : 'bajo'}`,
  );
  return `Por afinar antes de la pieza: ${list(each)}.`;
};

const inPlaces = (places: number): string => `en ${count(places, 'lugar', 'lugares')}`;

export const PASSAGE_SENTENCES: PassageSentences = {
  'string-for-both-hands': (places, guessed) =>
    `Las dos manos deben pulsar a la vez la misma cuerda, ${inPlaces(places)}.${byStaves(guessed)}`,
  'too-many-notes-in-hand': (places, guessed) =>
    `Una mano tiene a la vez más notas de las que pueden tocar sus ${FINGERS} dedos, en ${count(places, 'acorde', 'acordes')}.${byStaves(guessed)}`,
  'stretch-too-wide': (places, guessed) =>
    `${count(places, 'acorde es demasiado amplio', 'acordes son demasiado amplios')} para una mano: más de una décima.${byStaves(guessed)}`,
  'string-restruck-fast': (places) =>
    `Hay cuerdas que se pulsan de nuevo demasiado pronto, ${inPlaces(places)}, antes de poder sonar o cambiar de altura.`,
  'harmonic-out-of-range': (places) =>
    `${count(places, 'armónico queda', 'armónicos quedan')} fuera del registro en que los armónicos suenan bien.`,
  'too-many-harmonics': (places, guessed) =>
    `Una mano tiene a la vez más armónicos de los que puede tocar, ${inPlaces(places)}.${byStaves(guessed)}`,
  'no-free-hand': (places) =>
    `Ninguna mano está libre para ${count(places, 'cambio', 'cambios')} de palanca.`,
  'hand-too-busy': (places) =>
    `No hay tiempo para ${count(places, 'cambio', 'cambios')} de palanca: cada uno llega demasiado pronto tras otro.`,
  'other-hand-taken': (places) =>
    `Una mano que toca debe poner ${count(places, 'palanca', 'palancas')}, porque la otra no tiene tiempo.`,
  'lever-short-lead': (places) =>
    `${count(places, 'palanca se pone', 'palancas se ponen')} justo antes de que se pulse la cuerda.`,
  'lever-far-ahead': (places) =>
    `${count(places, 'palanca se pone', 'palancas se ponen')} mucho antes de la nota.`,
  'foot-too-busy': (places) =>
    `Los pies no tienen tiempo para ${count(places, 'cambio', 'cambios')}: cada uno coincide con otro movimiento de su pie o llega demasiado pronto tras él.`,
  'pedal-in-two-positions': (places) =>
    `Un pedal tendría que estar a la vez en dos posiciones, ${inPlaces(places)}.`,
  'pedals-together': (places) =>
    `Un pie debe tomar dos pedales vecinos en un solo movimiento, ${count(places, 'vez', 'veces')}.`,
  'foot-crossed': (places) =>
    `Un pie debe pasar al otro lado para ${count(places, 'cambio', 'cambios')}, porque el otro no tiene tiempo.`,
  'out-of-range': (places) => `El arpa no tiene cuerdas para notas ${inPlaces(places)}.`,
  'string-in-two-pitches': (places) =>
    `Una cuerda tendría que dar a la vez dos alturas, ${inPlaces(places)}.`,
  'quarter-tone': (places) =>
    `${count(places, 'nota está', 'notas están')} entre dos semitonos, donde ninguna cuerda está afinada.`,
  'double-accidental': (places) =>
    `${count(places, 'nota', 'notas')} con doble alteración se tocan en cuerdas vecinas.`,
  'fixed-string-in-two-pitches': (places) =>
    `${count(places, 'nota falta', 'notas faltan')}: ningún pedal actúa sobre sus cuerdas, afinadas de otro modo para esta pieza.`,
  'pitch-lost-by-retuning': (places) =>
    `Ninguna cuerda da ${places} de las notas, porque hay cuerdas afinadas de otro modo para esta pieza.`,
  'octaves-differ': (places) =>
    `Las octavas de una misma nota difieren ${inPlaces(places)}: aquí cada cuerda tiene su palanca, pero en el arpa de pedales un pedal mueve ambas.`,
  'ringing-string-moved': (places) =>
    `${count(places, 'cambio ha', 'cambios han')} de hacerse mientras sus cuerdas aún suenan.`,
};
