import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

const WAYS = { up: 'à monter', down: 'à descendre' } as const;

export const PIECES_WORDS: Pick<Words, 'card' | 'tuning' | 'set'> = {
  card: {
    moves: 'Changements de pédale',
    changes: 'Changements de levier',
    none: 'aucun',
    perMinute: (count, perMinute) =>
      `${count} dans la partition ; en moyenne ${withComma(perMinute, 1)} par minute avec toutes les reprises`,
    lasts: (length, bars) =>
      `${length} avec toutes les reprises et tous les silences, ${bars} ${bars === 1 ? 'mesure' : 'mesures'}`,
    tempo: {
      assumed: (tempo) => `aucun tempo n’est indiqué au début ; ${tempo} est supposé`,
      sound: (tempo) =>
        `aucune indication métronomique au début ; ${tempo} est le tempo de lecture du fichier`,
    },
    tune: 'À accorder',
    tuning: 'Accord',
  },
  tuning: {
    onMusic: {
      withoutPedal: 'À accorder avant de jouer, sans pédale :',
      byCents: 'À accorder avant de jouer :',
      to: (string) => `${string} en`,
    },
    withoutDisc: (from, to) => `${from} à accorder en ${to} : cette corde n’a pas de disque.`,
    retunedLetter: (from, to, way) => `Toutes les cordes de ${from} ${WAYS[way]} en ${to}.`,
    retunedStrings: (from, octaves, to, way) =>
      octaves.length === 1
        ? `La corde de ${from} de l’octave ${octaves[0]} ${WAYS[way]} en ${to}.`
        : `Les cordes de ${from} des octaves ${list(octaves)} ${WAYS[way]} en ${to}.`,
    retuned: (string, cents) =>
      `${string} à ${Math.abs(cents)} cents ${cents > 0 ? 'plus haut' : 'plus bas'}`,
    nothing: 'Rien d’autre que l’accord habituel.',
    caution:
      'Qu’une corde supporte une hauteur supérieure à la sienne, c’est à un technicien de la harpe de le dire : demandez-le d’abord.',
  },
  set: {
    title: 'Recueil de classe',
    contents: 'Sommaire',
    difficulty: 'Difficulté',
    difficultyLegend: (ownScale) =>
      `Le plus facile d’abord. Changements et minute sont comptés comme imprimé, chaque mesure une fois, la minute seulement pendant que la harpe joue ; la durée comprend toutes les reprises. ${ownScale}`,
    heads: {
      page: 'Page',
      grade: 'Difficulté',
      changes: 'Changements',
      perMinute: 'Par minute',
      length: 'Durée',
      piece: 'Morceau',
    },
    unplayable: (title) => `${title} (injouable tel quel)`,
    settings: 'D’un morceau à l’autre',
    settingsLegend:
      'Ce qu’il faut à chaque morceau avant son début, et ce qu’il faut en changer après le précédent. Les cordes qu’un morceau ne joue pas restent comme elles sont.',
    toSet: (names) => `À changer après le morceau précédent : ${names}.`,
    setAhead: (names) => `À régler dès maintenant pour des morceaux suivants : ${names}.`,
    nothingToSet: 'Rien à changer après le morceau précédent.',
    retune: 'À réaccorder, les leviers de ces cordes baissés',
    otherHarp: 'Sur une autre harpe que le morceau précédent.',
    refused: 'Absents de ce recueil',
    refusals: {
      unreadable: 'Le fichier ne peut pas être lu comme une partition.',
      unsupported: 'Il contient quelque chose qui n’est pas pris en charge.',
      noHarp: 'Aucune partie ne porte le nom de la harpe ; choisissez la partie.',
      noMusic: 'La partie n’a pas de notes.',
      noSuchTune: 'Cet air ne figure pas dans le livre.',
      tooLarge: 'Le morceau est trop grand.',
      tooSlow: 'Le traitement a duré trop longtemps.',
      notDrawn: 'Le morceau n’a pas pu être dessiné.',
    },
  },
};
