import type { Words } from '../worded.ts';

export const LEGEND_WORDS: Words['legend'] = {
  pedalTitle: 'Comment lire les indications de pédales',
  leverTitle: 'Comment lire les indications de leviers',
  setting: {
    diagram: (left, right) =>
      `Toutes les pédales dans leur ordre, pied gauche ${left}, pied droit ${right} : au-dessus de la ligne bémol, sur la ligne bécarre, au-dessous dièse.`,
    letters: (left, right) => `Toutes les pédales : pied gauche ${left}, pied droit ${right}.`,
  },
  moved: 'Entourée : cette pédale change ici.',
  changed: 'Entourée : cette pédale est ailleurs que dans le dernier accord complet, ou change ici.',
  change: {
    foot: 'Un changement s’arrête avant la note qui en a besoin, là où le pied bouge.',
    note: 'Un changement est placé à la note qui en a besoin : le pied bouge avant cette note.',
  },
  rows: 'De deux lignes, celle du haut est pour le pied droit.',
  cannotWait:
    'Avec « pied ici », le pied change à cet endroit et n’attend pas la note : il n’en aurait pas le temps.',
  withNote:
    'Avec le triangle : changer exactement avec la note, car jusque-là une corde de cette pédale sonne.',
  firstTime:
    'l’accord ne vaut que la première fois ; quand la musique revient ici, d’autres pédales ont bougé.',
  onReturn: 'ne changer que quand la musique revient ici ; avant, la pédale est déjà en place.',
  leverFirstTime:
    'le tableau ne vaut que la première fois ; quand la musique revient ici, d’autres leviers ont bougé.',
  leverOnReturn: 'ne changer que quand la musique revient ici ; avant, le levier est déjà en place.',
  leverAtOneTime: 'ne changer que cette fois-là ; les autres fois, laisser le levier tel quel.',
  unplayable: 'Un endroit injouable tel qu’il est écrit ; la liste dit pourquoi.',
  footnotes: 'Notes du texte',
  timeToTurn: 'on a le temps',
};
