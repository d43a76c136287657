import {
  capitalize,
  closestChanges,
  type FailingBars,
  frequencyOf,
  type Measures,
} from '../../../engine/index.ts';
import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count, inBars } from './phrases.ts';

const failingWords = ({ feet, hands, strings }: FailingBars): string =>
  [
    ...(feet > 0 ? [`les pieds n’ont pas le temps ${inBars(feet)}`] : []),
    ...(hands > 0 ? [`aucune main n’est libre pour un levier ${inBars(hands)}`] : []),
    ...(strings > 0 ? [`les cordes ne peuvent donner les notes ${inBars(strings)}`] : []),
  ].join(', ');

const handsWords = ({ barsOverloaded: { left, right } }: Measures): string =>
  [
    ...(left > 0 ? [`la main gauche a trop à faire ${inBars(left)}`] : []),
    ...(right > 0 ? [`la main droite a trop à faire ${inBars(right)}`] : []),
  ].join(', ');

const GRADES = {
  easy: 'facile',
  moderate: 'moyenne',
  hard: 'difficile',
  'very-hard': 'très difficile',
} as const;

/** Of a grade, which has another gender than difficulty. */
const OF_GRADE = { ...GRADES, moderate: 'moyen' } as const;

export const DIFFICULTY_WORDS: Pick<Words, 'drawbacks' | 'difficulty'> = {
  drawbacks: {
    move: 'chaque changement compte un peu',
    respelling: 'une note est remplacée par son enharmonique',
    footTooBusy: 'le pied n’en a pas le temps',
    pedalsTogether: 'un pied change deux pédales à la fois',
    forbidden: 'aucun changement n’est permis ici',
    stringSounding: 'une corde de cette pédale sonne encore',
    justPlucked: 'une corde de cette pédale vient d’être pincée',
    stringRinging: 'une corde de cette pédale résonne peut-être encore',
    noLead: 'il tombe avec la note qui en a besoin',
    shortLead: 'peu de temps avant la note qui en a besoin',
    offBeat: 'il tombe entre les temps',
    betweenBeats: 'il n’y a ici ni temps, ni note, ni silence',
    betweenTupletNotes: 'il tombe entre les notes d’un groupe irrégulier',
    betweenBeatsOfRest: 'dans le silence, il tombe entre les temps',
    handsBusy: 'les mains jouent',
    handsHolding: 'des notes sont tenues',
    perNotePlucked: 'des notes sont jouées à cet instant',
    insideRun: 'il tombe au milieu d’un trait',
    closeMoves: 'le même pied vient de changer',
    perSecondAhead: 'il vient bien avant sa note',
    perSecondForgotten: 'l’indication peut être oubliée avant sa note',
    missedRest: 'le silence précédent était l’endroit voulu',
    startsElsewhere: 'la pédale est ailleurs au début',
    restoring: 'il ne sert que lorsque la musique revient ici',
    twoNotchesInHaste: 'deux crans en peu de temps',
  },
  difficulty: {
    grades: GRADES,
    notEverywhere: (grade) => `${grade}, mais pas partout`,
    reasons: {
      mostInTenSeconds: ({ mostInTenSeconds: most }, harp) =>
        `Jusqu’à ${harp === 'pedal' ? count(most, 'changement de pédale', 'changements de pédale') : count(most, 'changement de levier', 'changements de levier')} en dix secondes.`,
      shortestSpacing: (measures, harp) => {
        const { side, seconds } = closestChanges(measures);
        const who =
          harp === 'pedal'
            ? `Le pied ${side === 'left' ? 'gauche' : 'droit'}`
            : `La main ${side === 'left' ? 'gauche' : 'droite'}`;
        return seconds === null
          ? `${who} doit ${harp === 'pedal' ? 'changer deux pédales' : 'placer deux leviers'} en même temps.`
          : `${who} n’a que ${withComma(seconds, 2)} s entre deux ${harp === 'pedal' ? 'changements' : 'leviers'}.`;
      },
      atThePluck: ({ atThePluck }) =>
        `${Math.round(atThePluck * 100)} % des changements tombent avec la note qui en a besoin.`,
      stringsBent: ({ stringsBent }) =>
        stringsBent === 1
          ? 'Un changement fait glisser une corde qui sonne encore.'
          : `${stringsBent} changements font glisser une corde qui sonne encore.`,
      barsOverloaded: (measures) => `${capitalize(handsWords(measures))}.`,
      feetTogether: ({ feetTogether }) => `Deux pédales changent ensemble ${feetTogether} fois.`,
      notesPerSecond: ({ notesPerSecond }) =>
        `Les mains jouent ${count(Math.round(notesPerSecond), 'note', 'notes')} par seconde.`,
    },
    easy: (measures, harp) => {
      const told =
        harp === 'pedal'
          ? {
              never: 'Aucune pédale ne change pendant que la harpe joue',
              seldom: 'Les pédales changent rarement',
              inTime: 'Il y a le temps pour chaque changement de pédale',
            }
          : {
              never: 'Aucun levier ne change pendant que la harpe joue',
              seldom: 'Les leviers changent rarement',
              inTime: 'Il y a le temps pour chaque changement de levier',
            };
      return `${told[frequencyOf(measures)]}, et les mains ont le temps.`;
    },
    unplayable: (failing) => `Injouable tel que c’est imprimé : ${failingWords(failing)}.`,
    share: (passages, of, grade) =>
      of === 1
        ? `Niveau de la partie : ${OF_GRADE[grade]}.`
        : `Passages de niveau ${OF_GRADE[grade]} : ${passages} sur ${of}.`,
    verdict: (failing, measures, harp) => {
      const hands = handsWords(measures);
      if (failing.first !== null) {
        const where = failing.first === '' ? '' : ` : le premier obstacle est à la mesure ${failing.first}`;
        return [`injouable tel que c’est imprimé${where}`, failingWords(failing), hands]
          .filter((each) => each !== '')
          .join(' ; ');
      }
      const whole =
        harp === 'pedal' ? 'jouable pour les mains et les pieds' : 'jouable tel que c’est imprimé';
      const part = harp === 'pedal' ? 'jouable pour les pieds' : 'les leviers sont jouables';
      return hands === '' ? whole : `${part} ; ${hands}`;
    },
  },
};
