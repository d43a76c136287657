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

const HANDS = { left: 'La main gauche', right: 'La main droite' } as const;
const FEET = { left: 'Le pied gauche', right: 'Le pied droit' } as const;
const LEVERS = { up: 'levé', down: 'baissé' } as const;
const OTHER_WAY = { up: 'baissé', down: 'levé' } as const;

/** What the foot moved last. */
const LAST_MOVED = {
  'the same': 'il vient de déplacer la même pédale',
  another: 'il vient de déplacer une autre pédale',
  together: 'il déplace une autre pédale en même temps',
} as const;

const stretch = (seconds: number): string =>
  isNoTime(seconds, 1) ? 'en même temps' : `en ${withComma(seconds, 1)} s`;

const byStaff = (guessed: boolean): string => (guessed ? ' La main est déduite de la portée.' : '');

const byStaves = (guessed: boolean): string => (guessed ? ' Les mains sont déduites des portées.' : '');

const inRun = ({ from, until }: { readonly from: string; readonly until: string }): string =>
  from === until || from === '' || until === '' ? inBar(from) : `aux mesures ${from}–${until}`;

const nameSounding = (
  { change, sounding }: RingingFacts & { readonly harp: 'pedal' },
  names: NoteNames,
): string =>
  sounding.length === 0
    ? `qu’un ${names.letter(change.letter)} précédent sonne encore`
    : `que ${list(sounding.map((each) => nameHeardString(each, names)))} ${sounding.length === 1 ? 'sonne encore' : 'sonnent encore'}`;

/** Names of ornaments from memory. */
const OF_ORNAMENT = { trill: 'au trille', ornament: 'à l’ornement' } as const;

const belonging = (notes: readonly OrnamentNote[], names: NoteNames): string =>
  afterSentence(
    notes,
    (note) =>
      `Le ${names.pitch(note.pitch)} appartient ${OF_ORNAMENT[note.what]} sur ${names.pitch(note.on)}.`,
  );

export const FINDING_SENTENCES: FindingSentences = {
  'string-for-both-hands': ({ string, guessed }, names) =>
    `Les deux mains doivent pincer la même corde en même temps : ${names.pitch(string)}.${byStaves(guessed)}`,
  'too-many-notes-in-hand': ({ hand, notes, guessed }) =>
    `${HANDS[hand]} a ${notes} notes à jouer à la fois, mais ne joue qu’avec ${FINGERS} doigts.${byStaff(guessed)}`,
  'stretch-too-wide': ({ lowest, highest, guessed }, names) =>
    `L’écart de ${names.pitch(lowest)} à ${names.pitch(highest)} est trop grand pour une main : il dépasse la dixième.${byStaff(guessed)}`,
  'string-restruck-fast': ({ string, seconds, again }, names) => {
    const gap = `${withComma(seconds, 2)} s`;
    const name = `La corde ${names.pitch(string)} est pincée de nouveau`;
    if (again === 'tremolo') return `${name} toutes les ${gap}, avant de pouvoir sonner.`;
    if (again === 'same') return `${name} au bout de ${gap} seulement, avant de pouvoir sonner.`;
    return `${name} au bout de ${gap} seulement, en ${names.pitch(again)} : il n’y a guère le temps de changer sa hauteur.`;
  },
  'harmonic-out-of-range': ({ string, range }, names) =>
    `L’harmonique sur la corde ${names.pitch(string)} ne sonnera pas bien : les bonnes cordes vont de ${names.string(range.lowest)} à ${names.string(range.highest)}.`,
  'too-many-harmonics': ({ hand, harmonics, most, guessed }) =>
    `${HANDS[hand]} a ${harmonics} harmoniques à jouer à la fois, mais ne peut en jouer que ${most}.${byStaff(guessed)}`,
  'strings-to-retune': ({ tuning, usual, changes }, names) =>
    `Avant la pièce, réaccorder les cordes à vide de ${names.tuning(usual)} en ${names.tuning(tuning)} : ${list(changes.map(names.change))}.`,
  'no-string-in-tuning': ({ note, tuning, notes }, names) =>
    `Dans l’accordage en ${names.tuning(tuning)}, aucune corde ne donne ${names.note(note)}, que son levier soit levé ou baissé${notes > 1 ? ` (${notes} notes)` : ''}.`,
  'no-free-hand': ({ pitch, why }, names) =>
    why === 'hands-play'
      ? `Aucune main n’est libre pour placer le levier de ${names.pitch(pitch)}.`
      : `Il n’y a pas le temps de placer le levier de ${names.pitch(pitch)} avant que sa corde soit pincée.`,
  'hand-too-busy': ({ pitch }, names) =>
    `Il n’y a pas le temps de placer le levier de ${names.pitch(pitch)} : un autre vient d’être placé.`,
  'other-hand-taken': ({ pitch, hand }, names) =>
    `${HANDS[hand]} doit placer le levier de ${names.pitch(pitch)}, car l’autre n’a pas le temps.`,
  'lever-short-lead': ({ pitch, hand, seconds }, names) =>
    `${HANDS[hand]} place le levier de ${names.pitch(pitch)} seulement ${withComma(seconds, 2)} s avant que sa corde soit pincée : un levier mal engagé grésille.`,
  'lever-far-ahead': ({ pitch, hand, seconds }, names) =>
    `${HANDS[hand]} place le levier de ${names.pitch(pitch)} ${Math.round(seconds)} s avant que la note soit jouée.`,
  'hands-hurried-passage': ({ moves, seconds, left, right }) =>
    `Les mains doivent se presser : ${moves} changements de levier ${stretch(seconds)}, ${tellBySides({ left, right }, { both: `dont ${left} de la main gauche et ${right} de la droite`, allOf: (side) => `tous de la main ${side === 'left' ? 'gauche' : 'droite'}` })}.`,
  'lever-restored': ({ pitch, elsewhere }, names) =>
    `${names.pitch(pitch)} est pour la reprise : le levier est alors sur ${names.pitch(elsewhere)}.`,
  'lever-pin-not-honoured': (facts, names) => {
    const lever = `Levier de ${names.string(facts.string)} ${LEVERS[facts.to]}`;
    switch (facts.why) {
      case 'no-changes-here':
        return `${lever} : il faut le placer ici, où aucun changement n’est permis.`;
      case 'note':
        return `${lever} : on ne peut le fixer ici, car une note ${inBar(facts.bar)} le veut ${OTHER_WAY[facts.to]}.`;
      case 'pin':
        return `${lever} : on ne peut le fixer ici, car il est déjà fixé ${OTHER_WAY[facts.to]}.`;
      case 'no-moment':
        return `${lever} : on ne peut le fixer ici, car il n’y a ni note ni temps à cet endroit.`;
      case 'no-lever':
        return `${lever} : on ne peut le fixer, car cette harpe n’a pas ce levier.`;
    }
  },
  'foot-too-busy': ({ foot, change, last }, names) =>
    `${FEET[foot]} n’a pas le temps pour ${names.change(change)} : ${LAST_MOVED[last]}.`,
  'pedal-in-two-positions': ({ change, rival, ofOrnaments }, names) => {
    const letter = names.letter(change.letter);
    const clash =
      rival === null
        ? `La pédale de ${letter} ne peut pas être ici sur ${names.change(change)}.`
        : `La pédale de ${letter} devrait être à la fois sur ${names.change(change)} et ${names.change(rival)} : elle agit sur toutes les cordes de ${letter}.`;
    return `${clash}${belonging(ofOrnaments, names)}`;
  },
  'pedals-together': ({ foot, change }, names) =>
    `${FEET[foot]} doit déplacer ${names.change(change)} et la pédale voisine en même temps.`,
  'foot-crossed': ({ foot, change }, names) =>
    `${FEET[foot]} doit passer de l’autre côté pour ${names.change(change)}, car l’autre n’a pas le temps.`,
  'feet-hurried-passage': ({ moves, seconds, left, right }) =>
    `Les pieds doivent se presser : ${moves} mouvements ${stretch(seconds)}, ${tellBySides({ left, right }, { both: `dont ${left} du pied gauche et ${right} du droit`, allOf: (side) => `tous du pied ${side === 'left' ? 'gauche' : 'droit'}` })}.`,
  'repeat-restored': ({ change, elsewhere }, names) =>
    `${names.change(change)} est pour la reprise : la pédale est alors sur ${names.change(elsewhere)}.`,
  'pin-not-honoured': (facts, names) => {
    const change = names.change(facts.change);
    switch (facts.why) {
      case 'no-moves-here':
        return `Il faut placer ${change} ici, où aucun mouvement n’est permis.`;
      case 'needed-earlier':
        return `Il faut placer ${change} ici, plus tôt que fixé : une note en a besoin avant.`;
      case 'foot-busy':
        return `Il faut placer ${change} ici, plus tôt que fixé : ${FEET[facts.foot].toLowerCase()} y est occupé par une autre pédale.`;
      case 'note':
        return `On ne peut fixer ${change} ici : une note ${inBar(facts.bar)} demande ${names.change(facts.needed)}.`;
      case 'fixed-already':
        return `On ne peut fixer ${change} ici : ${names.change(facts.fixed)} y est déjà fixé.`;
      case 'no-moment':
        return `On ne peut fixer ${change} ici : il n’y a ni note ni temps à cet endroit.`;
    }
  },
  'marking-contradicts-notes': ({ marked, needed, bar }, names) =>
    `D’après l’indication imprimée ${names.change(marked)}, le prochain ${names.letter(needed.letter)} sonnerait faux : ${inBar(bar)}, c’est ${names.change(needed)}. Ce plan suit la note.`,
  'out-of-range': ({ pitch, range, ofOrnaments }, names) =>
    `La harpe n’a pas de corde pour ${names.pitch(pitch)} : ses cordes vont de ${names.string(range.lowest)} à ${names.string(range.highest)}.${belonging(ofOrnaments, names)}`,
  'string-in-two-pitches': ({ string, rivals, ofOrnaments }, names) => {
    const named = rivals.map((each) => ('position' in each ? names.change(each) : names.pitch(each)));
    const clash =
      named.length < 2
        ? `La corde ${names.string(string)} ne peut pas donner ici ${named.join('')}.`
        : `La corde ${names.string(string)} devrait donner à la fois ${list(named)}.`;
    return `${clash}${belonging(ofOrnaments, names)}`;
  },
  'quarter-tone': ({ pitch, harp }, names) =>
    `${names.pitch(pitch)} n’est pas jouable : la note est entre deux demi-tons, et ${harp === 'pedal' ? 'aucune pédale' : 'aucun levier'} ne la donne.`,
  'double-accidental': ({ from, to }, names) =>
    `Aucune corde ne donne ${names.pitch(from)} sous ce nom : la note se joue comme ${names.pitch(to)}.`,
  'played-on-other-string': ({ from, to, isOfOrnament, times, fromBar }, names) => {
    const subject = isOfOrnament ? `Le ${names.pitch(from)} de l’ornement` : names.pitch(from);
    const first = fromBar === '' ? '' : `, d’abord à la mesure ${fromBar}`;
    const often = times > 1 ? ` (à ${times} endroits${first})` : '';
    return `${subject} se joue sur la corde ${names.string(to)}, comme ${names.pitch(to)}${often}.`;
  },
  'fixed-string-tuning': ({ string, change }, names) =>
    `Aucune pédale n’agit sur la corde ${names.string(string)} : l’accorder en ${names.tunedTo(change)} avant la pièce.`,
  'fixed-string-in-two-pitches': ({ pitch }, names) =>
    `${names.pitch(pitch)} n’est pas jouable : aucune pédale n’agit sur sa corde, et la pièce lui demande une autre hauteur.`,
  'string-retuned': (facts, names) => tellRetuned(facts, names),
  'string-tuned-higher': (facts, names) => tellRetuned(facts, names),
  'pitch-lost-by-retuning': ({ pitch }, names) =>
    `${names.pitch(pitch)} n’est pas jouable : sa corde est réaccordée, et aucune autre ne la donne.`,
  'octaves-differ': ({ pitches: [one, other] }, names) =>
    `${names.pitch(one)} et ${names.pitch(other)} ne se jouent ensemble, tels qu’écrits, que sur la harpe à leviers : sur la harpe à pédales, une pédale agit sur les deux cordes.`,
  'ringing-string-moved': (facts, names) =>
    facts.harp === 'pedal'
      ? `Il faut placer ${names.change(facts.change)} alors ${nameSounding(facts, names)} : le changement s’entendra.`
      : `Il faut placer le levier de ${names.pitch(facts.pitch)} alors que sa corde sonne encore : le changement s’entendra.`,
  'glissando-setting-guessed': ({ letters, setting, glissandi, untilBar }, names) => {
    const until = untilBar === null ? '' : ` d’ici à la mesure ${untilBar}`;
    const whose = glissandi === 1 ? 'ce glissando' : `${glissandi} glissandos${until}`;
    const taken = letters.map((letter) => names.change({ letter, position: setting[letter] }));
    return `${list(letters.map(names.letter))} : altération non indiquée pour ${whose} ; d’après l’armure, ${list(taken)}.`;
  },
  'flat-key-rings-fuller': ({ sharps, twin }, names) =>
    `À partir d’ici, la harpe sonne moins : les ${sharps} dièses à l’armure raccourcissent les cordes. ${names.majorKey(twin)} sonne à la même hauteur, et plus pleinement.`,
  'shared-notes-kept': ({ player, bars }) =>
    `Rien ne dit quelles notes ${list(bars.map(inRun))} sont pour l’exécutant ${player} : toutes sont prévues.`,
  'written-for-several': ({ players, dividedFrom }) =>
    `La partie est écrite pour ${players} exécutants, mais prévue comme si un seul jouait toutes les notes${
      dividedFrom.length === 0
        ? ''
        : ` ; les exécutants se divisent ${list([...new Set(dividedFrom)].map(inBar))}`
    }.`,
};

const tellRetuned: FindingSentences['string-retuned'] = ({ tuned }, names) => {
  const each = tuned.map(
    ({ string, cents }) =>
      `${names.string(string)} ${Math.abs(cents)} cents plus ${cents > 0 ? 'haut' : 'bas'}`,
  );
  return `À accorder avant la pièce : ${list(each)}.`;
};

const inPlaces = (places: number): string => `à ${count(places, 'endroit', 'endroits')}`;

export const PASSAGE_SENTENCES: PassageSentences = {
  'string-for-both-hands': (places, guessed) =>
    `Les deux mains doivent pincer la même corde en même temps, ${inPlaces(places)}.${byStaves(guessed)}`,
  'too-many-notes-in-hand': (places, guessed) =>
    `Une main a plus de notes à la fois que ses ${FINGERS} doigts n’en peuvent jouer, dans ${count(places, 'accord', 'accords')}.${byStaves(guessed)}`,
  'stretch-too-wide': (places, guessed) =>
    `${count(places, 'accord est trop large', 'accords sont trop larges')} pour une main : plus d’une dixième.${byStaves(guessed)}`,
  'string-restruck-fast': (places) =>
    `Des cordes sont pincées de nouveau trop tôt, ${inPlaces(places)}, avant de pouvoir sonner ou changer de hauteur.`,
  'harmonic-out-of-range': (places) =>
    `${count(places, 'harmonique est', 'harmoniques sont')} hors de la région où les harmoniques sonnent bien.`,
  'too-many-harmonics': (places, guessed) =>
    `Une main a plus d’harmoniques à la fois qu’elle n’en peut jouer, ${inPlaces(places)}.${byStaves(guessed)}`,
  'no-free-hand': (places) =>
    `Aucune main n’est libre pour ${count(places, 'changement', 'changements')} de levier.`,
  'hand-too-busy': (places) =>
    `Il n’y a pas le temps pour ${count(places, 'changement', 'changements')} de levier : chacun vient trop tôt après un autre.`,
  'other-hand-taken': (places) =>
    `Une main qui joue doit placer ${count(places, 'levier', 'leviers')}, car l’autre n’a pas le temps.`,
  'lever-short-lead': (places) =>
    `${count(places, 'levier est placé', 'leviers sont placés')} juste avant que leurs cordes soient pincées.`,
  'lever-far-ahead': (places) =>
    `${count(places, 'levier est placé', 'leviers sont placés')} longtemps avant leurs notes.`,
  'foot-too-busy': (places) =>
    `Les pieds n’ont pas le temps pour ${count(places, 'changement', 'changements')} : chacun vient en même temps qu’un autre mouvement de son pied, ou trop tôt après.`,
  'pedal-in-two-positions': (places) =>
    `Une pédale devrait être dans deux positions à la fois, ${inPlaces(places)}.`,
  'pedals-together': (places) =>
    `Un pied doit prendre deux pédales voisines d’un seul mouvement, ${places} fois.`,
  'foot-crossed': (places) =>
    `Un pied doit passer de l’autre côté pour ${count(places, 'changement', 'changements')}, car l’autre n’a pas le temps.`,
  'out-of-range': (places) => `La harpe n’a pas de cordes pour des notes, ${inPlaces(places)}.`,
  'string-in-two-pitches': (places) =>
    `Une corde devrait donner deux hauteurs à la fois, ${inPlaces(places)}.`,
  'quarter-tone': (places) =>
    `${count(places, 'note est', 'notes sont')} entre deux demi-tons, où aucune corde n’est accordée.`,
  'double-accidental': (places) =>
    `${count(places, 'note', 'notes')} à double altération se jouent sur des cordes voisines.`,
  'fixed-string-in-two-pitches': (places) =>
    `${count(places, 'note manque', 'notes manquent')} : aucune pédale n’agit sur leurs cordes, accordées autrement pour cette pièce.`,
  'pitch-lost-by-retuning': (places) =>
    `Aucune corde ne donne ${places} des notes, car des cordes sont accordées autrement pour cette pièce.`,
  'octaves-differ': (places) =>
    `Les octaves d’une même note diffèrent ${inPlaces(places)} : ici chaque corde a son levier, mais sur la harpe à pédales une pédale agit sur les deux.`,
  'ringing-string-moved': (places) =>
    `${count(places, 'changement doit', 'changements doivent')} se faire alors que leurs cordes sonnent encore.`,
};
