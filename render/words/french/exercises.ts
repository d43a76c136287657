import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';

export const EXERCISES_WORDS: Pick<Words, 'exercise' | 'marked'> = {
  exercise: {
    title: 'Exercice à compléter',
    solution: 'Solution de l’exercice',
    task: {
      pedal: {
        boxes:
          'Écris les indications dans les cases : dans une grande, la position de toutes les pédales à cet endroit, dans une petite, la pédale qui y change. La solution est aux dernières pages.',
        none: 'Écris la position des pédales avant la première note, et chaque changement à l’endroit où le pied bouge. La solution est aux dernières pages.',
      },
      lever: {
        boxes:
          'Écris les indications dans les cases : dans une grande, les leviers levés à cet endroit, dans une petite, le levier qui y change. La solution est aux dernières pages.',
        none: 'Écris quels leviers sont levés avant la première note, et chaque changement là où une main est libre. La solution est aux dernières pages.',
      },
    },
    taskAtStart: {
      pedal:
        'Écris dans chaque case la position de toutes les pédales : aucune ne change après la première note. La solution est aux dernières pages.',
      lever:
        'Écris dans chaque case quels leviers sont levés : aucun ne change après la première note. La solution est aux dernières pages.',
    },
  },
  marked: {
    title: 'Correction',
    points: (given, most) => `${given} points sur ${most}`,
    counts: (counts) =>
      [
        `${counts.right} juste(s)`,
        `${counts['better-place']} à mieux placer`,
        `${counts.wrong} faux`,
        `${counts.missing} oublié(s)`,
        `${counts.needless} inutile(s)`,
      ].join(', '),
    verdicts: {
      right: 'Juste',
      'better-place': 'Juste, mais il y a un meilleur endroit',
      wrong: 'Faux',
      missing: 'Oublié',
      needless: 'Inutile',
    },
    meanings: {
      right: 'Juste : les notes sonnent comme elles sont écrites.',
      'better-place': 'Juste, mais il y a un meilleur endroit, indiqué plus bas sous son numéro.',
      wrong: 'Faux : une note sonne autrement, ou le temps manque ; ce qu’il faut est en bleu.',
      missing: 'Oublié : ce qu’il faut est en bleu.',
      needless:
        'Inutile : tout sonne de même sans lui, pour la raison indiquée plus bas sous son numéro ; aucun point n’est retiré.',
    },
    faults: 'Mesure par mesure',
    opening: 'accord au début',
    comment: (place, what, verdict) => `${place}, ${what} : ${verdict}.`,
    sounds: (place, note, instead) => `${place} : au lieu de ${note}, on entend ${instead}.`,
    more: (notes, until) =>
      `De même pour ${notes === 1 ? 'une autre note' : `${notes} autres notes`} ${until === null ? 'dans cette mesure' : `jusqu’à la mesure ${until}`}.`,
    unstated: (place, note) => `${place} : rien ne dit où se tient la pédale de ${note}.`,
    write: (names) => `Écrire ${names}.`,
    sameSound: (written, letter, note) =>
      `${written} est pour les cordes de ${letter} ; la note est ${note}.`,
    move: (place) => `Sa place est ici : ${place}.`,
    contradicts: (names) => `Une autre indication dit ici ${names}.`,
    strike: 'À supprimer.',
    tooQuick: 'Le pied n’y a pas le temps.',
    better: (place, why) => `Mieux ici : ${place}. ${why}`,
    why: {
      bends: 'Là où il se trouve, une corde de cette pédale sonne encore.',
      late: 'Il vient juste avant sa note, alors que le pied est libre plus tôt.',
      early: 'Il vient si longtemps avant sa note qu’il faut le garder en mémoire.',
    },
    needless: {
      stands: (since) =>
        `La pédale se tient ${since === null ? 'déjà ainsi' : `ainsi depuis la ${uncapitalize(since)}`}.`,
      unasked: (before) =>
        `Aucune note ne le demande${before === null ? '' : ` avant le changement suivant, ${uncapitalize(before)}`}.`,
      twice: 'Il est déjà écrit ici.',
      undoes: 'Il ne fait qu’annuler un autre changement qui n’a pas sa place.',
    },
    allRight: 'Chaque note trouve sa pédale, et chaque changement est bien placé.',
    unread: (place, text) => `${place} : « ${text} » n’a pas pu être lu comme une indication.`,
    lever: {
      opening: 'leviers au début',
      tooQuick: 'Aucune main n’y est libre.',
      why: {
        bends: 'Là où il se trouve, la corde sonne encore.',
        late: 'Il vient juste avant sa note, alors qu’une main est libre plus tôt.',
        busy: 'Là où il se trouve, les deux mains jouent.',
      },
      stands: (since) =>
        `Le levier se tient ${since === null ? 'déjà ainsi' : `ainsi depuis la ${uncapitalize(since)}`}.`,
      allRight: 'Chaque note trouve son levier, et chaque changement est bien placé.',
    },
  },
};
