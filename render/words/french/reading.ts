import type { Words } from '../worded.ts';

export const READING_WORDS: Words['reading'] = {
  title: 'Comment lire les indications',
  titleOf: {
    pedal: 'Comment lire les indications de pédales',
    lever: 'Comment lire les indications de leviers',
  },
  onThePages: 'Sur les pages de musique',
  setting: 'Un diagramme montre la position de toutes les pédales à partir de cet endroit.',
  change: {
    foot: 'Un nom de note avec son signe est un changement : le pied y déplace cette pédale, avant la note qui en a besoin.',
    note: 'Un nom de note avec son signe est un changement : la pédale doit être ainsi quand vient cette note.',
  },
  feet: 'Quand les deux pieds bougent, le pied droit est en haut, le pied gauche en bas.',
  ring: 'Une pédale entourée est ailleurs que dans le dernier diagramme, ou change ici.',
  wedge: 'Un triangle avant le changement veut dire : exactement avec la note.',
  strings: 'Après « = » est nommée la corde sur laquelle se joue une note écrite autrement.',
  counts:
    'Les chiffres gris au-dessus de la musique sont les temps à compter ; les numéros de mesure sont noirs et en italique.',
  movements:
    'Un chiffre romain devant un numéro de mesure indique le mouvement : II 12 est la mesure 12 du deuxième.',
  numbers:
    'Un nombre blanc sur fond noir marque un endroit injouable tel qu’il est écrit ; après la musique, le même nombre dit pourquoi.',
  colours: {
    'c-red-f-black': 'Les notes des cordes de do sont rouges, comme les cordes.',
    'c-red-f-blue':
      'Les notes des cordes de do sont rouges et celles des cordes de fa bleues, pour trouver les cordes aussitôt.',
  },
  leverTable:
    'Le tableau des leviers a une colonne par note et une ligne par octave. Un triangle est un levier levé, un tiret un levier baissé.',
  leverChange: {
    names:
      'Un nom avec un chiffre est un changement : une main y place le levier de cette corde, qui donne alors cette note.',
    notes:
      'Une petite note est un changement : une main y place le levier de cette corde, qui donne alors cette note.',
  },
  leverHands: 'Sous le nom est indiquée la main qui le fait : m.g. est la gauche, m.d. la droite.',
};
