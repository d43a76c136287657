import { withComma } from '../decimal-comma.ts';
import type { AdviceSentences } from '../finding-words.ts';
import { type ProofPhrases, proofSentences } from '../proof-phrases.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

const place = (bar: string, beat: string): string => `mesure ${bar}, temps ${beat}`;

const ordinal = (number: number): string => (number === 1 ? '1re' : `${number}e`);

const PHRASES: ProofPhrases = {
  noMarkings: {
    pedal: 'La partie n’a pas d’indications de pédale : il n’y a rien à vérifier.',
    lever: 'La partie n’a pas d’indications de levier : il n’y a rien à vérifier.',
  },
  unclear: {
    pedal: (words) => `Les mots « ${words} » semblent nommer des pédales, mais on ne sait pas lesquelles.`,
    lever: (words) => `Les mots « ${words} » semblent parler de leviers, mais on ne sait pas desquels.`,
  },
  unknown: (letters) =>
    `Rien ne dit comment ${letters.length === 1 ? 'est placée la pédale' : 'sont placées les pédales'} ${list(letters)} : aucune indication n’en a parlé.`,
  ornamentOn: (note) => `l’ornement sur ${note}`,
  by: (where) =>
    where === null ? 'depuis le début' : `d’après l’indication à la ${place(where.bar, where.beat)}`,
  times: (passes) => (passes.length === 0 ? '' : ` la ${list(passes.map(ordinal))} fois`),
  stillHeld: (change, note, needed) =>
    `${change} est indiqué trop tôt : ${note} est encore tenu et demande ${needed}.`,
  soundsWrong: (note, times, { needed, stands, by }) =>
    `${note} sonnera faux${times} : il faut ${needed}, mais ${by} on a ${stands}.`,
  soundsWrongOnReturn: (note, bar, { needed, stands, by }) =>
    `Quand la musique revient à la mesure ${bar}, ${note} sonnera faux : il faut ${needed}, mais ${by} on a ${stands}.`,
  tooQuick: (foot, change, note, bar, seconds) =>
    `Le pied ${foot === 'left' ? 'gauche' : 'droit'} ne peut pas mettre ${change} à temps pour ${note} à la mesure ${bar} : après son dernier changement il lui manque ${withComma(seconds, 2)} s.`,
  contradict: (first, second) =>
    `On ne sait pas quoi mettre : une indication dit ici ${first}, une autre ${second}.`,
  needless: {
    stands: {
      pedal: (change) => `${change} est indiqué, mais la pédale y est déjà.`,
      lever: (change) => `${change} est indiqué, mais le levier y est déjà.`,
    },
    unasked: {
      pedal: (change) =>
        `${change} est indiqué, mais aucune note n’en a besoin avant que la pédale ne bouge encore.`,
      lever: (change) =>
        `${change} est indiqué, mais aucune note n’en a besoin avant que le levier ne bouge encore.`,
    },
    twice: (change) => `${change} est indiqué ici deux fois.`,
  },
  bends: (change, note) =>
    `${change} est indiqué pendant que ${note} sonne encore, et ferait glisser la note.`,
  late: (change, note) => `${change} vient à temps pour ${note}, mais plus tard que nécessaire.`,
  early: (change, note) => `${change} est indiqué longtemps avant ${note} : il faut le garder en mémoire.`,
  glissando: (sounding, expected) =>
    `D’après les indications le glissando sonnera ${list(sounding)}, mais ses notes et l’armure disent ${list(expected)}.`,
  noSuchLever: (name) => `${name} est indiqué, mais cette harpe n’a pas de levier sur une telle corde.`,
  notInTuning: (name, tuning) =>
    `${name} est indiqué, mais avec les cordes accordées en ${tuning} aucun levier ne le donne.`,
  startUntold:
    'Aucune indication ne dit comment sont les leviers au début : on suppose ce que demande l’armure.',
  noHand: (change, note, bar) =>
    `Aucune main n’est libre pour mettre ${change} entre son indication et ${note} à la mesure ${bar}.`,
  tooClose: (change, note, bar) =>
    `${change} est indiqué trop près d’un autre changement : aucune main ne peut faire les deux avant ${note} à la mesure ${bar}.`,
};

const ADVICE: AdviceSentences = {
  'annotate-first': () => 'Annotez d’abord la partie.',
  'name-pedals': () => 'Écrivez chaque pédale par sa lettre avec ♭, ♮ ou ♯.',
  'name-levers': () =>
    'Écrivez chaque levier par sa lettre avec ♭, ♮ ou ♯ et l’octave de sa corde, ou avec « up » ou « down ».',
  'print-missing': ({ changes }, names) =>
    `Écrivez ${changes.map(names.change).join(', ')}, si c’est le sens voulu : c’est ce qui manque dans cette mesure.`,
  'print-levers-up': () => 'Écrivez avant la première note quels leviers sont levés.',
  'note-against-note': ({ rival, other }, names) =>
    `Aucune indication n’y peut rien, car une autre note demande en même temps ${names.change(rival)} : ${other === null ? 'l’omettre' : `la jouer comme ${names.pitch(other)}`}, ou la donner à une autre harpe.`,
  'lever-against-lever': ({ rival }, names) =>
    `Aucune indication n’y peut rien, car une autre note demande en même temps ${names.lever(rival)} : en omettre une, ou la donner à une autre harpe.`,
  'respell-or-wait': () => 'Ou jouer une des notes sur une autre corde, ou prendre ici plus de temps.',
  'omit-or-wait': () => 'Ou omettre une note pour la main, ou prendre ici plus de temps.',
  'too-many-mistakes': () =>
    'Il y a trop de fautes pour essayer tous les remèdes. Faites d’abord les autres corrections, puis vérifiez de nouveau.',
};

const FIXES: Words['proof']['fixes'] = {
  place,
  fullSetting: 'la position complète',
  marking: (names) => `l’indication ${names}`,
  add: (names, where) => `ajouter ${names} à la ${where}`,
  addSetting: (setting, where) => `écrire la position complète ${setting} à la ${where}`,
  print: (name, instead, where) => `écrire ${name} au lieu de ${instead} à la ${where}`,
  move: (marking, from, to) => `déplacer ${marking} de la ${from} à la ${to}`,
  remove: (marking, where) => `supprimer ${marking} à la ${where}`,
  and: ', et ',
};

export const PROOF_WORDS: Words['proof'] = {
  nothing: 'Rien à corriger',
  faults: 'Les fautes, et comment les corriger',
  edits: 'Toutes les corrections',
  inFile: 'Dans le fichier',
  right: {
    pedal: 'Chaque note trouve sa pédale, et les pieds ont le temps.',
    lever: 'Chaque note trouve son levier, et une main a le temps pour chaque changement.',
  },
  sentences: proofSentences(PHRASES),
  advice: ADVICE,
  fixes: FIXES,
  leverFixes: {
    ...{ place, add: FIXES.add, and: FIXES.and, list },
    words: (text, where) => `« ${text} » à la ${where}`,
    smallNote: (text, where) => `la petite note ${text} à la ${where}`,
    print: (names, text) => `écrire ${names} dans ${text}`,
    printInstead: (names, instead, text) => `écrire ${names} au lieu de ${instead} dans ${text}`,
    move: (names, text, to) => `déplacer ${names} de ${text} à la ${to}`,
    remove: (names, text) => `retirer ${names} de ${text}`,
  },
};
