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

const HANDS = { left: 'la main gauche', right: 'la main droite' } as const;
const TECHNICIAN =
  'Accorder une corde au-dessus de sa hauteur fatigue la corde et la table : demander d’abord à un technicien de la harpe.';

/** Names of ornaments from memory. */
const REPEATED = {
  tremolo: 'le trémolo sur',
  glissando: 'le glissando depuis',
  trill: 'le trille sur',
  ornament: 'l’ornement sur',
} as const;

const inBars = (bars: ChangedNotes['bars']): string => {
  const spans = bars.map(({ from, until }) => (from === until ? from : `${from}–${until}`));
  return spans.length === 1 && spans[0] === bars[0]!.from ? inBar(spans[0]) : `aux mesures ${list(spans)}`;
};

const ofTwo = (which: NoteOfTwo, pitch: string): string =>
  ({
    either: `une des deux notes ${pitch}`,
    first: `le premier ${pitch}`,
    grace: `la petite note ${pitch}`,
    second: `le second ${pitch}`,
    only: `le ${pitch}`,
  })[which];

const atBeats = (beats: readonly string[]): string => (beats.length === 0 ? '' : `, temps ${list(beats)}`);

const STAVES = {
  'upper-staff': 'de la portée supérieure',
  'lower-staff': 'de la portée inférieure',
} as const;

const changed = (
  { from, to, bars, beats, isGrace, twin, ornament, notes }: ChangedNotes,
  names: NoteNames,
): string => {
  const name = list(from.map(names.pitch));
  const note = isGrace ? ofTwo('grace', name) : `${twin === 'main-note' ? 'la note principale ' : ''}${name}`;
  const plain =
    twin === null || twin === 'main-note'
      ? note
      : twin === 'either'
        ? ofTwo('either', name)
        : `${note} ${STAVES[twin]}`;
  const what =
    ornament === null
      ? plain
      : `${REPEATED[ornament.what]} ${plain} avec ${list(ornament.neighbours.map(names.pitch))}`;
  const where = `${inBars(bars)}${atBeats(beats)}${notes === from.length ? '' : ` (${notes} notes)`}`;
  return to === null
    ? `Omettre ${what} ${where}.`
    : `Écrire ${list(to.map(names.pitch))} pour ${what} ${where}.`;
};

export const HELP_SENTENCES: HelpSentences = {
  'change-notes': ({ changes }, names) => changes.map((each) => changed(each, names)).join(' '),
  'write-for': ({ from, to }, names) => `Écrire ${names.pitch(to)} pour ${names.pitch(from)}.`,
  'write-on-fixed-string': ({ to, string, tuned }, names) =>
    tuned
      ? `Écrire ${names.pitch(to)} : la corde ${names.string(string)} est déjà accordée ainsi pour cette pièce.`
      : `Écrire ${names.pitch(to)} et accorder ainsi la corde ${names.string(string)} avant la pièce.`,
  'one-hand-only': ({ pitch, hand }, names) =>
    `Jouer ${names.pitch(pitch)} de la seule main ${hand === 'left' ? 'gauche' : 'droite'}.`,
  'write-one-as': ({ which, pitch, to }, names) =>
    `Écrire ${ofTwo(which, names.pitch(pitch))} comme ${names.pitch(to)}.`,
  'leave-out-first': ({ pitch, isGrace }, names) =>
    `Omettre ${ofTwo(isGrace ? 'grace' : 'first', names.pitch(pitch))}.`,
  'leave-one-out': () => 'Omettre une des notes.',
  'into-range': ({ pitch, to }, names) => `Jouer ${names.pitch(to)} au lieu de ${names.pitch(pitch)}.`,
  'octave-or-leave-out': ({ pitch, to }, names) =>
    `Jouer ${names.pitch(pitch)} une octave plus ${isHigher(to, pitch) ? 'haut' : 'bas'} (${names.pitch(to)}), ou l’omettre.`,
  'octave-stands-there': ({ pitch, to }, names) =>
    `Omettre ${names.pitch(pitch)} : ${names.pitch(to)}, à une octave de là, y est déjà.`,
  'replace-note': () => 'Remplacer la note.',
  'or-leave-out': () => 'Ou omettre la note.',
  'leave-note-out': () => 'Omettre la note.',
  'ask-technician': () => TECHNICIAN,
  'retune-another': () => 'Réaccorder plutôt une autre corde, ou remplacer la note.',
  'retune-strings': ({ tuned, lost }, names) => {
    const strings = tuned.map(
      ({ string, cents }) =>
        `${names.string(string)} ${Math.abs(cents)} cents plus ${cents > 0 ? 'haut' : 'bas'}`,
    );
    const price =
      lost.length === 0
        ? 'toutes les autres notes restent jouables.'
        : `mais aucune corde ne donne alors ${list(lost.map(names.pitch))}.`;
    const raised = tuned.some(({ cents }) => cents > 0) ? ` ${TECHNICIAN}` : '';
    return `Accorder ${list(strings)} avant la pièce : ${price}${raised}`;
  },
  'retuning-is-no-help': () => 'Réaccorder des cordes n’y change rien.',
  'tune-to-play': ({ tuning, missingNotes, changes, withoutTime }, names) =>
    `Accorder en ${names.tuning(tuning)} pour la jouer ; il manque alors à la pièce ${count(missingNotes, 'note', 'notes')}, et elle a ${count(changes, 'changement de levier', 'changements de levier')}${withoutTime === 0 ? '' : `, dont ${withoutTime} sans le temps nécessaire`}.`,
  'no-tuning-helps': ({ note, isGiven }, names) =>
    isGiven
      ? `Un autre accordage n’y change rien : là où les cordes donnent chaque ${names.note(note)}, autant d’autres choses sont injouables, ou plus.`
      : `Un autre accordage n’y change rien : aucun ne donne ici chaque ${names.note(note)}.`,
  'tune-instead': ({ tuning, changes }, names) =>
    changes === 0
      ? `Accorder plutôt en ${names.tuning(tuning)} : aucun levier ne change alors.`
      : `Accorder plutôt en ${names.tuning(tuning)} : une main a alors le temps de chaque changement (${changes} en tout).`,
  'write-in-key': ({ tonic }, names) =>
    `Écrire la partie de harpe en ${names.majorKey(tonic)} ou dans le ton mineur relatif.`,
  'change-marking': ({ needed }, names) => `Remplacer l’indication par ${names.change(needed)}.`,
  'state-glissando': ({ what, glissandi }) =>
    `Indiquer dans la partition ${what === 'setting' ? 'la position des pédales' : 'les notes'} ${glissandi === 1 ? 'du glissando' : 'de ces glissandos'}.`,
  'damp-earlier': ({ letter, sounding }, names) =>
    `Étouffer ${sounding.length === 0 ? `le ${names.letter(letter)} précédent` : list(sounding.map((each) => nameHeardString(each, names)))} avant le changement, ou ${sounding.length > 1 ? 'les' : 'le'} raccourcir.`,
  'damp-string': () => 'Étouffer la corde avant le changement, ou raccourcir sa note.',
  'move-harmonic': ({ range }, names) =>
    `Placer l’harmonique sur une corde de ${names.string(range.lowest)} à ${names.string(range.highest)}, ou jouer la note en son ordinaire.`,
  'more-time': () => 'Prendre ici plus de temps.',
  'more-time-or-second-harp': () => 'Prendre ici plus de temps, ou donner une note à une autre harpe.',
  'more-time-or-leave-out': () => 'Prendre ici plus de temps, ou omettre une note sur une des deux cordes.',
  'more-time-for-feet': () =>
    'Prendre ici plus de temps, jouer des notes sur les cordes voisines, ou partager le passage avec une autre harpe.',
  'more-time-for-hands': () =>
    'Prendre ici plus de temps, ou accorder de sorte que moins de leviers changent.',
  'unhurried-at': ({ percent }) => `À ${percent} % du tempo, ces changements se font sans hâte.`,
  'more-time-for-lever': () =>
    'Donner plus de temps à la main qui place le levier, ou jouer la note un peu plus tard.',
  'rest-before-note': ({ seconds }) =>
    `Donner à une main un silence de ${exactWithComma(seconds)} s avant la note, ou jouer la note à une autre octave.`,
  'rest-for-hand': ({ hand }) => `Donner ici un silence à ${HANDS[hand]}.`,
  'second-harp': () => 'Donner une des notes à une autre harpe.',
  'end-earlier': ({ what, on, before }, names) =>
    `Terminer ${REPEATED[what]} ${names.pitch(on)} avant le ${names.pitch(before)}.`,
  'other-hand-takes': ({ hand, pitches }, names) =>
    `Jouer ${list(pitches.map(names.pitch))} de ${HANDS[hand]}.`,
  'leave-out-of-chord': ({ notes, isBroken }) =>
    `${isBroken ? 'Omettre' : 'Arpéger l’accord, ou omettre'} ${count(notes, 'note', 'notes')}.`,
  'break-chord': () => 'Arpéger l’accord.',
  'leave-out-harmonic': () => 'Omettre un harmonique, ou en jouer un en son ordinaire.',
  'tremolo-of-two': ({ pitches }, names) =>
    pitches === null
      ? 'Écrire un trémolo entre deux notes.'
      : `Écrire le trémolo entre ${list(pitches.map(names.pitch))}, deux cordes de même hauteur.`,
  'shorten-quiet-passage': ({ without }) =>
    `Raccourcir le passage sans ${without === 'moves' ? 'mouvements' : 'changements'}.`,
  'move-pin': () => 'Déplacer ou supprimer ce qui est fixé ici.',
  'pin-elsewhere': () => 'Fixer un des deux mouvements à un autre moment.',
  'plan-one-player': () =>
    'Prévoir les notes d’un seul exécutant (option « player »), là où des mots ou les hampes disent à qui elles sont.',
  'part-for-each-player': () =>
    'Faire une partie pour chaque exécutant, avec ses seules notes, et prévoir chacune à part.',
  'mark-players': () =>
    'Écrire « I », « II » ou « a 2 » au-dessus des notes, ou donner à chaque exécutant sa propre voix.',
};
