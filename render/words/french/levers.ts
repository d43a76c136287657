import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count } from './phrases.ts';

export const LEVERS_WORDS: Words['levers'] = {
  harp: (strings) => `Harpe à leviers, ${strings} cordes`,
  start: {
    tuning: (key) => `Accordage : ${key}.`,
    allDown: 'Tous les leviers baissés.',
    up: (names) => `Leviers levés : ${names.join(', ')}.`,
    down: (names) => `Leviers baissés : ${names.join(', ')}.`,
    allOf: (name) => `tous les ${name}`,
  },
  onMusic: { tuning: 'Accordage', up: 'Leviers levés', allDown: 'Tous les leviers baissés', all: 'tous les' },
  strings: 'Leviers avant de commencer',
  stringsLegend:
    'Les cordes à partir de la plus grave. Un levier noir en travers de la corde est levé, un gris à côté est baissé. Au-dessus d’une corde haussée se lit ce qu’elle donne, sous chacune son accord.',
  tuningSheet: 'Feuille d’accordage',
  tuningHeads: {
    string: 'Corde',
    custom: 'Accord habituel',
    tuneTo: 'Accorder en',
    change: 'Différence',
    up: 'Leviers levés',
    gives: 'Avec levier',
    fixed: 'Sans levier',
  },
  tuningLegend: (tuning, harp) =>
    `${harp}. Accordez toutes les cordes, leviers baissés : ${tuning}. Mettez ensuite les leviers.`,
  upForRepeat: (string) =>
    `Le levier de ${string} est levé avant le début à cause de la reprise, qui le laisse ainsi : aucune note n’en a besoin avant qu’il soit baissé.`,
  retuned: (semitones) =>
    `${count(Math.abs(semitones), 'demi-ton', 'demi-tons')} ${semitones > 0 ? 'plus haut' : 'plus bas'}`,
  all: 'tous',
  octaves: (octaves) => `${octaves.length === 1 ? 'octave' : 'octaves :'} ${octaves.join(', ')}`,
  changes: 'Changements de levier',
  noChanges: 'Aucun levier ne change dans cette partie : il n’y a pas de changements à travailler.',
  changeCount: (changes, perMinute) =>
    `${count(changes, 'changement de levier', 'changements de levier')}, ${withComma(perMinute, 1)} par minute pendant que la harpe joue.`,
  noBusyBars: 'Aucune mesure n’a plus d’un changement de levier.',
  busyBar: (bar, changes, names) => `Mesure ${bar} : ${changes} changements (${names})`,
  passageChanges: 'Leviers',
  line: 'Les leviers seuls',
  lineLegend:
    'Les leviers sans les cordes : comptez à voix haute ; la main indiquée met le levier sur son temps et revient. Le nom est la note que la corde donne ensuite. Une fraction est la part du temps déjà écoulée (sans fraction : entre les temps) ; un nombre au-dessus d’un trait épais, autant de mesures sans levier. Laissez reposer les mains avant de recommencer.',
  table: 'Liste des changements de levier',
  tableHeads: {
    bar: 'Mesure',
    beat: 'Temps',
    hand: 'Main',
    lever: 'Levier',
    to: 'Vers',
    gives: 'Donne',
    lead: 'Avance',
    why: 'Pourquoi là',
  },
  tableLegend:
    'L’avance est le temps entre le changement de levier et la première note qui en a besoin, au tempo d’exécution et sans sauts de lecture.',
  positions: { up: 'levé', down: 'baissé' },
  hands: { left: 'gauche', right: 'droite' },
  handLabels: { left: 'm.g.', right: 'm.d.' },
  handFree: (hand, leaves, returns) =>
    `la main ${hand === 'left' ? 'gauche' : 'droite'} est libre ${[
      ...(leaves === null ? [] : [`après ${leaves}`]),
      ...(returns === null ? [] : [`jusqu’à ${returns}`]),
      ...(leaves === null && returns === null ? ['tout du long'] : []),
    ].join(' ')}`,
  noteAt: (note, bar) => `${note} à la mesure ${bar}`,
  atSpot: (levers) => `À son début : ${levers}`,
  spotsLegend:
    'Les passages qui ne sont pas faciles, d’abord ceux qu’on ne peut pas jouer, puis le plus difficile : d’après le niveau, puis d’après le plus grand nombre de changements en dix secondes. Travaillez-les du dernier au premier et laissez reposer les mains entre deux exercices. Les mesures pâles n’en font pas partie.',
  restBetween:
    'Entre deux exercices, laisser reposer les mains ; arrêter aussitôt si quelque chose fait mal.',
  leversAlone:
    'Les leviers seuls, comme ci-dessus, en comptant à voix haute, sans les cordes ; chaque main revient à sa place au-dessus des cordes.',
  aroundEach:
    'Seulement ce qui entoure chaque changement, aussi lentement qu’il vous plaît : la dernière note avant lui, le changement, et la première note après, jusqu’à ce que les mains trouvent les trois sans regarder.',
  handsAlone:
    'Les notes seules, les leviers laissés comme au début du passage : certaines notes sonnent autrement.',
  slowly: (beat, tempo) =>
    `Notes et leviers ensemble, lentement : à ${beat} = ${tempo}, chaque main a au moins une seconde entre ses leviers.`,
  inTempo: (beat, tempo) =>
    `Notes et leviers ensemble : même au tempo d’exécution, ${beat} = ${tempo}, chaque main a une seconde entre ses leviers.`,
};
