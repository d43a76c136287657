import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count, list } from './phrases.ts';

export const STUDY_WORDS: Words['study'] = {
  edition: 'édition d’étude',
  contents: 'Sommaire',
  opening: 'Pédales au début',
  movement: (numeral) => `Mouvement ${numeral}`,
  tune: 'À accorder avant de jouer',
  difficulty: (grade) => `Difficulté : ${grade}`,
  ownScale: 'Aucune échelle n’est publiée : les niveaux sont les nôtres.',
  moves: 'Changements de pédale',
  noMoves: 'Aucune pédale ne change dans cette partie : il n’y a pas de changements à travailler.',
  moveCount: (moves, perMinute) =>
    `${count(moves, 'changement de pédale', 'changements de pédale')}, ${withComma(perMinute, 1)} par minute pendant que la harpe joue.`,
  chordSymbols:
    'Les symboles d’accords sont imprimés, mais il n’en est pas tenu compte : tout ce qui est réglé ici l’est pour les notes écrites. Si vous jouez les accords, réglez aussi leurs notes.',
  busiest: 'Mesures les plus chargées',
  asBusy: (bars) => `Autant ${bars.length === 1 ? 'à la mesure' : 'aux mesures'} ${list(bars)}.`,
  noBusyBars: 'Aucune mesure n’a plus d’un changement.',
  busyBar: (bar, moves, changes) => `Mesure ${bar} : ${moves} changements (${changes})`,
  passages: 'Difficulté par passage',
  passageHeads: {
    bars: 'Mesures',
    grade: 'Difficulté',
    moves: 'Pédales',
    perMinute: 'Par minute',
    why: 'Pourquoi',
  },
  part: 'La partie',
  chart: 'Tableau des pédales',
  chartLegend:
    'Une voie pour chaque pédale : en haut les trois du pied gauche, en bas les quatre du pied droit. Le trait en haut de sa voie indique le bémol, au milieu le bécarre, en bas le dièse, comme se tiennent les pédales. Chaque changement porte le nom que la pédale donne ensuite ; chaque ligne commence par l’accord en vigueur. Plusieurs mesures sans changement n’en font qu’une : un trait épais est un silence, des points sont de la musique.',
  table: 'Liste des changements',
  tableHeads: {
    bar: 'Mesure',
    beat: 'Temps',
    foot: 'Pied',
    pedal: 'Pédale',
    from: 'De',
    to: 'À',
    lead: 'Avance',
    why: 'Pourquoi là',
  },
  tableLegend:
    'L’avance est le temps entre le changement et la première note qui en a besoin, au tempo d’exécution et sans sauts de lecture.',
  octaves: (middleC) => `${middleC} est ici le do du milieu, que les méthodes françaises appellent do 3.`,
  fullTempo: (note) => `${note}. C’est le tempo d’exécution de ces feuilles.`,
  footwork: 'Les pieds seuls',
  pauseLegend: 'Ce qui précède le premier temps d’un mouvement se prépare entre les deux mouvements.',
  footworkLegend:
    'Les pieds seuls, loin des cordes : comptez à voix haute et changez chaque pédale sur son temps. Une fraction est la part du temps déjà écoulée (sans fraction : entre les temps) ; un nombre au-dessus d’un trait épais, autant de mesures où les pieds se reposent. Laissez reposer les pieds avant de recommencer.',
  counting: (metres) => `Les temps sont ceux que l’on compte à voix haute (dans une mesure à ${metres}).`,
  countingUpbeat: 'Une levée a les derniers temps de sa mesure.',
  countingDivided: 'Une mesure imprimée en deux parties se compte à la suite dans la seconde.',
  spots: 'Passages difficiles',
  spotsLegend:
    'Les passages qui ne sont pas faciles, d’abord ceux qu’on ne peut pas jouer, puis le plus difficile : d’après le niveau, puis d’après le plus grand nombre de changements en dix secondes. Travaillez-les du dernier au premier et laissez reposer mains et pieds entre deux exercices. Les mesures pâles n’en font pas partie.',
  noSpots: 'Tous les passages sont faciles.',
  spot: (rank, where, grade) => `${rank}. ${where} : ${grade}`,
  exercises: 'Exercices',
  noExercises:
    'Aucun : tel qu’il est imprimé, ce passage est injouable. Choisissez d’abord un remède parmi les remarques.',
  exceptBars: (names, count) =>
    count === 1
      ? `La mesure ${names} est injouable telle quelle : choisissez d’abord un remède parmi les remarques, ou travaillez sans elle.`
      : `Les mesures ${names} sont injouables telles quelles : choisissez d’abord un remède parmi les remarques, ou travaillez sans elles.`,
  feetAlone: 'Les pieds seuls, comme ci-dessus, en comptant à voix haute, sans les cordes.',
  eachHand: 'Chaque main seule, aussi lentement qu’il le faut, jusqu’à ce qu’elle ait toutes les notes.',
  handsAlone:
    'Les mains seules, les pédales laissées comme au début du passage : certaines notes sonnent autrement.',
  slowly: (beat, tempo) =>
    `Mains et pieds ensemble, lentement : à ${beat} = ${tempo}, chaque pied a au moins une seconde entre ses changements.`,
  inTempo: (beat, tempo) =>
    `Mains et pieds ensemble : même au tempo d’exécution, ${beat} = ${tempo}, chaque pied a une seconde entre ses changements.`,
  restBetween:
    'Entre deux exercices, laisser reposer mains et pieds ; arrêter aussitôt si quelque chose fait mal.',
  ladder: (beat, tempi) =>
    tempi.length === 1
      ? `Trois fois sans faute à ${beat} = ${tempi[0]}.`
      : `D’un palier au suivant, trois fois sans faute à chacun : ${beat} = ${tempi.join(', ')}.`,
  findings: 'Remarques',
  notes: 'Notes personnelles',
  seconds: (seconds) => `${withComma(seconds, 1)} s`,
  withNote: 'avec la note',
  partOfBeat: (beat, part, parts) => `${beat}, ${part}e sur ${parts}`,
  hardlyAny: 'moins de 0,1 s',
  rate: (perMinute) => withComma(perMinute, 1),
  whyAfter: (note, bar) => `après ${note} à la mesure ${bar}`,
  whyAfterChange: (bar) => `après le changement de la mesure ${bar}`,
  whyAsRepeatLeaves: 'au début, la position est celle que laisse la reprise',
  whyFromStart: 'à tout moment depuis le début',
  whyBefore: (note, bar, beat) => `avant ${note} à la mesure ${bar}, temps ${beat}`,
  whyAfterJump: 'la prochaine note qui en a besoin vient après un saut',
  whyRestores: 'remise en place pour la reprise',
  whyForRepeated: 'pour que ce qui est répété commence pareillement chaque fois',
  whyInPause: 'entre deux mouvements',
  whyBeforeGrace: 'avant la petite note',
  whyAgainst: (drawbacks) => `Contre : ${drawbacks.join(' ; ')}`,
};
