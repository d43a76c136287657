import type { Words } from '../worded.ts';

export const HANDOUTS_WORDS: Words['handouts'] = {
  titles: {
    keys: 'Tonalités',
    glissandi: 'Glissandi',
    'doubled-strings': 'Cordes doublées',
    pedals: 'Pédales et disques',
  },
  pedalKeys: 'Tonalités sur la harpe à pédales',
  pedalKeysLegend:
    'Une tonalité majeure et sa relative mineure ont les mêmes pédales. Pour le mineur harmonique et le mineur mélodique ascendant, changez aussi celles-ci. Aucune pédale ne donne un double dièse, ici entre parenthèses : il se joue sur la corde au-dessus, dont la pédale change pour lui.',
  pedalKeyHeads: {
    major: 'Majeur',
    minor: 'Mineur',
    setting: 'Pédales',
    names: '',
    harmonic: 'Harmonique',
    melodic: 'Mélodique asc.',
  },
  leverKeys: 'Tonalités sur la harpe à leviers',
  leverKeysLegend: (tuning) =>
    `Les cordes sont accordées en ${tuning}, tous les leviers baissés. « Levé » : levier à mettre ; une note en gras est celle en laquelle les cordes de sa colonne sont à accorder avant le morceau, à toutes les octaves.`,
  leverTables: {
    major: 'Majeur et mineur naturel',
    'harmonic minor': 'Mineur harmonique',
    'melodic minor': 'Mineur mélodique ascendant',
  },
  key: 'Tonalité',
  up: 'levé',
  glissandi: 'Accords et gammes pour glissandi',
  glissandiPlayedAs: 'Après = vient la note par laquelle ces pédales donnent la fondamentale.',
  glissandiLegend:
    'Avec ces pédales, chaque corde donne une note de l’accord ou de la gamme, et aucune autre. De plusieurs possibilités, celle qui double le moins de cordes est montrée. Ligne du haut : pied droit ; ligne du bas : pied gauche.',
  sounds: {
    'diminished seventh': 'Septième diminuée',
    'dominant ninth': 'Neuvième de dominante',
    'dominant seventh': 'Septième de dominante',
    'minor seventh': 'Septième mineure',
    'half-diminished seventh': 'Septième de sensible',
    'major sixth': 'Sixte ajoutée',
    'whole tone': 'Gamme par tons',
    'major pentatonic': 'Pentatonique majeure',
    'minor pentatonic': 'Pentatonique mineure',
    major: 'Majeur',
    'harmonic minor': 'Mineur harmonique',
  },
  noSetting: (roots) => `Aucun réglage ne donne exactement ces notes sur ${roots.join(', ')}.`,
  doubled: 'Cordes doublées',
  doubledLegend:
    'Deux cordes voisines peuvent donner la même note : pour des notes répétées sans étouffer, pour un trémolo sur une note et pour un son plus plein. Trois notes restent seules : il faudrait aux cordes voisines un double dièse ou un double bémol.',
  doubledHeads: { pitch: 'Note', strings: 'Cordes', pedals: 'Pédales' },
  oneString: 'une seule',
  twoStrings: 'deux',
  oneEachFoot: (pedals) => `${pedals}, une de chaque pied`,
  bothOneFoot: (pedals, foot) => `${pedals}, les deux du pied ${foot === 'left' ? 'gauche' : 'droit'}`,
  fullest: 'Trois notes doublées à la fois',
  fullestLegend: (settings, strings) =>
    `Les ${settings} réglages où trois notes sont doublées, si bien que les ${strings} cordes d’une octave ne donnent que quatre notes.`,
  mechanism: 'Comment agissent pédales et disques',
  mechanismLegend:
    'Sept pédales, une pour chaque nom de note. Une pédale commande toutes les cordes de son nom à la fois, à toutes les octaves, par des tringles dans la colonne et deux disques à chaque corde.',
  positions: 'Trois positions',
  positionsLegend:
    'Chaque disque qui serre la corde la hausse d’un demi-ton : la partie épaisse de la corde est celle qui sonne. Toutes les autres pédales agissent de même. Aucune pédale ne donne un double dièse ou un double bémol : une telle note se joue sur une corde voisine.',
  gives: (name) => `donne ${name}`,
  notches: {
    flat: 'cran du haut, aucun disque',
    natural: 'cran du milieu, disque supérieur',
    sharp: 'cran du bas, les deux disques',
  },
  twoFeet: 'Deux pieds',
  pedalsOfFoot: {
    left: (letters) => `Le pied gauche a les pédales ${letters}, de l’extérieur vers l’intérieur.`,
    right: (letters) => `Le pied droit a les pédales ${letters}, de l’intérieur vers l’extérieur.`,
  },
  setFor: { key: (key) => `en ${key}`, opening: 'comme au début de ce morceau' },
  twoFeetLegend: (how) =>
    `Vu de la place du harpiste, ici ${how}. Un pied change une pédale à la fois, de préférence quand les cordes de ce nom se taisent : celle qui sonne frise ou glisse.`,
  diagram: 'Comment lire un diagramme',
  diagramLegend: (setting) =>
    `Les mêmes pédales comme on les imprime : un trait pour chacune dans leur ordre, le trait vertical sépare le pied gauche du droit. Au-dessus de la ligne c’est le bémol, à cheval le bécarre, au-dessous le dièse : ${setting}.`,
  fixed: 'Cordes sans disques',
  fixedHeads: { strings: 'Cordes', range: 'Étendue', fixed: 'Sans disques', harp: 'Harpe' },
  fixedLegend:
    'Aucune pédale ne change ces cordes. On les accorde à la main avant le morceau selon son besoin, et elles gardent cette note. N’accordez aucune corde au-dessus de sa hauteur habituelle sans l’accord d’un technicien de la harpe.',
  noFixed: 'aucune',
  pedalHarp: (strings) => `Harpe à pédales, ${strings} cordes`,
};
