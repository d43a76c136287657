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

const HANDS = { left: 'la mano sinistra', right: 'la mano destra' } as const;
const TO_HANDS = { left: 'alla mano sinistra', right: 'alla mano destra' } as const;
const TECHNICIAN =
  'Accordare una corda sopra la sua altezza affatica la corda e la tavola armonica: chiedere prima a un tecnico dell’arpa.';

/** Names of ornaments from memory. */
const REPEATED = {
  tremolo: 'il tremolo su',
  glissando: 'il glissando da',
  trill: 'il trillo su',
  ornament: 'l’abbellimento su',
} as const;

const inBars = (bars: ChangedNotes['bars']): string => {
  const spans = bars.map(({ from, until }) => (from === until ? from : `${from}–${until}`));
  return spans.length === 1 && spans[0] === bars[0]!.from ? inBar(spans[0]) : `alle battute ${list(spans)}`;
};

const ofTwo = (which: NoteOfTwo, pitch: string): string =>
  ({
    either: `una delle due note ${pitch}`,
    first: `il primo ${pitch}`,
    grace: `l’acciaccatura ${pitch}`,
    second: `il secondo ${pitch}`,
    only: `il ${pitch}`,
  })[which];

const atBeats = (beats: readonly string[]): string =>
  beats.length === 0 ? '' : `, ${beats.length === 1 ? 'tempo' : 'tempi'} ${list(beats)}`;

const STAVES = { 'upper-staff': 'del rigo superiore', 'lower-staff': 'del rigo inferiore' } as const;

const changed = (
  { from, to, bars, beats, isGrace, twin, ornament, notes }: ChangedNotes,
  names: NoteNames,
): string => {
  const name = list(from.map(names.pitch));
  const note = isGrace ? ofTwo('grace', name) : `${twin === 'main-note' ? 'la nota principale ' : ''}${name}`;
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
  const where = `${inBars(bars)}${atBeats(beats)}${notes === from.length ? '' : ` (${notes} note)`}`;
  return to === null
    ? `Omettere ${what} ${where}.`
    : `Scrivere ${list(to.map(names.pitch))} per ${what} ${where}.`;
};

export const HELP_SENTENCES: HelpSentences = {
  'change-notes': ({ changes }, names) => changes.map((each) => changed(each, names)).join(' '),
  'write-for': ({ from, to }, names) => `Scrivere ${names.pitch(to)} per ${names.pitch(from)}.`,
  'write-on-fixed-string': ({ to, string, tuned }, names) =>
    tuned
      ? `Scrivere ${names.pitch(to)}: la corda ${names.string(string)} è già accordata così per questo brano.`
      : `Scrivere ${names.pitch(to)} e accordare così la corda ${names.string(string)} prima del brano.`,
  'one-hand-only': ({ pitch, hand }, names) =>
    `Suonare ${names.pitch(pitch)} con la sola mano ${hand === 'left' ? 'sinistra' : 'destra'}.`,
  'write-one-as': ({ which, pitch, to }, names) =>
    `Scrivere ${ofTwo(which, names.pitch(pitch))} come ${names.pitch(to)}.`,
  'leave-out-first': ({ pitch, isGrace }, names) =>
    `Omettere ${ofTwo(isGrace ? 'grace' : 'first', names.pitch(pitch))}.`,
  'leave-one-out': () => 'Omettere una delle note.',
  'into-range': ({ pitch, to }, names) => `Suonare ${names.pitch(to)} al posto di ${names.pitch(pitch)}.`,
  'octave-or-leave-out': ({ pitch, to }, names) =>
    `Suonare ${names.pitch(pitch)} un’ottava ${isHigher(to, pitch) ? 'sopra' : 'sotto'} (${names.pitch(to)}), oppure ometterlo.`,
  'octave-stands-there': ({ pitch, to }, names) =>
    `Omettere ${names.pitch(pitch)}: ${names.pitch(to)}, a un’ottava di distanza, c’è già.`,
  'replace-note': () => 'Sostituire la nota.',
  'or-leave-out': () => 'Oppure omettere la nota.',
  'leave-note-out': () => 'Omettere la nota.',
  'ask-technician': () => TECHNICIAN,
  'retune-another': () => 'Riaccordare piuttosto un’altra corda, oppure sostituire la nota.',
  'retune-strings': ({ tuned, lost }, names) => {
    const strings = tuned.map(
      ({ string, cents }) =>
        `${names.string(string)} di ${Math.abs(cents)} cent più ${cents > 0 ? 'alto' : 'basso'}`,
    );
    const price =
      lost.length === 0
        ? 'tutte le altre note si possono ancora suonare.'
        : `ma allora nessuna corda dà ${list(lost.map(names.pitch))}.`;
    const raised = tuned.some(({ cents }) => cents > 0) ? ` ${TECHNICIAN}` : '';
    return `Accordare ${list(strings)} prima del brano: ${price}${raised}`;
  },
  'retuning-is-no-help': () => 'Riaccordare le corde non aiuta.',
  'tune-to-play': ({ tuning, missingNotes, changes, withoutTime }, names) =>
    `Accordare in ${names.tuning(tuning)} per suonarla; al brano ${missingNotes === 1 ? 'manca' : 'mancano'} allora ${count(missingNotes, 'nota', 'note')}, e ha ${count(changes, 'cambio di levetta', 'cambi di levetta')}${withoutTime === 0 ? '' : `, di cui ${withoutTime} senza tempo`}.`,
  'no-tuning-helps': ({ note, isGiven }, names) =>
    isGiven
      ? `Un’altra accordatura non aiuta: dove le corde danno ogni ${names.note(note)}, altrettanto non si può suonare, o di più.`
      : `Un’altra accordatura non aiuta: nessuna dà qui ogni ${names.note(note)}.`,
  'tune-instead': ({ tuning, changes }, names) =>
    changes === 0
      ? `Accordare piuttosto in ${names.tuning(tuning)}: allora nessuna levetta cambia.`
      : `Accordare piuttosto in ${names.tuning(tuning)}: allora una mano ha tempo per ogni cambio (${changes} in tutto).`,
  'write-in-key': ({ tonic }, names) =>
    `Scrivere la parte dell’arpa in ${names.majorKey(tonic)} o nella relativa minore.`,
  'change-marking': ({ needed }, names) => `Cambiare l’indicazione in ${names.change(needed)}.`,
  'state-glissando': ({ what, glissandi }) =>
    `Indicare nella partitura ${what === 'setting' ? 'la posizione dei pedali' : 'le note'} ${glissandi === 1 ? 'del glissando' : 'di questi glissandi'}.`,
  'damp-earlier': ({ letter, sounding }, names) =>
    `Smorzare ${sounding.length === 0 ? `il ${names.letter(letter)} precedente` : list(sounding.map((each) => nameHeardString(each, names)))} prima del cambio, o ${sounding.length > 1 ? 'abbreviarli' : 'abbreviarlo'}.`,
  'damp-string': () => 'Smorzare la corda prima del cambio, o abbreviarne la nota.',
  'move-harmonic': ({ range }, names) =>
    `Spostare l’armonico su una corda da ${names.string(range.lowest)} a ${names.string(range.highest)}, o suonarlo come nota ordinaria.`,
  'more-time': () => 'Prendersi qui più tempo.',
  'more-time-or-second-harp': () => 'Prendersi qui più tempo, o dare una nota a un’altra arpa.',
  'more-time-or-leave-out': () => 'Prendersi qui più tempo, o omettere una nota su una delle due corde.',
  'more-time-for-feet': () =>
    'Prendersi qui più tempo, suonare note sulle corde vicine, o dividere il passo con un’altra arpa.',
  'more-time-for-hands': () => 'Prendersi qui più tempo, o accordare in modo che cambino meno levette.',
  'unhurried-at': ({ percent }) => `Al ${percent} % del tempo questi cambi si fanno senza fretta.`,
  'more-time-for-lever': () =>
    'Dare più tempo alla mano che mette la levetta, o suonare la nota un attimo dopo.',
  'rest-before-note': ({ seconds }) =>
    `Dare a una mano una pausa di ${exactWithComma(seconds)} s prima della nota, o suonare la nota in un’altra ottava.`,
  'rest-for-hand': ({ hand }) => `Dare qui una pausa ${TO_HANDS[hand]}.`,
  'second-harp': () => 'Dare una delle note a un’altra arpa.',
  'end-earlier': ({ what, on, before }, names) =>
    `Finire ${REPEATED[what]} ${names.pitch(on)} prima del ${names.pitch(before)}.`,
  'other-hand-takes': ({ hand, pitches }, names) =>
    `Suonare ${list(pitches.map(names.pitch))} con ${HANDS[hand]}.`,
  'leave-out-of-chord': ({ notes, isBroken }) =>
    `${isBroken ? 'Omettere' : 'Arpeggiare l’accordo, o omettere'} ${count(notes, 'nota', 'note')}.`,
  'break-chord': () => 'Arpeggiare l’accordo.',
  'leave-out-harmonic': () => 'Omettere un armonico, o suonarne uno come nota ordinaria.',
  'tremolo-of-two': ({ pitches }, names) =>
    pitches === null
      ? 'Scrivere un tremolo fra due note.'
      : `Scrivere il tremolo fra ${list(pitches.map(names.pitch))}, due corde della stessa altezza.`,
  'shorten-quiet-passage': ({ without }) =>
    `Accorciare il passo senza ${without === 'moves' ? 'movimenti' : 'cambi'}.`,
  'move-pin': () => 'Spostare o togliere ciò che è fissato qui.',
  'pin-elsewhere': () => 'Fissare uno dei due movimenti in un altro momento.',
  'plan-one-player': () =>
    'Pianificare le note di un solo esecutore (opzione «player»), dove parole o gambi dicono di chi sono.',
  'part-for-each-player': () =>
    'Fare una parte per ogni esecutore, con le sole sue note, e pianificare ciascuna da sé.',
  'mark-players': () => 'Scrivere «I», «II» o «a 2» sopra le note, o dare a ogni esecutore una voce propria.',
};
