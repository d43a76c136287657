import { capitalize, type FailingBars, type Measures } from '../../engine/index.ts';
import { withComma } from './decimal-comma.ts';
import type { Words } from './worded.ts';

const count = (number: number, one: string, several: string): string =>
  `${number} ${number < 2 ? one : several}`;

const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} et ${names.at(-1)}`;

const bars = (from: string, until: string): string =>
  from === '' || until === ''
    ? 'Mesure sans numéro'
    : from === until
      ? `Mesure ${from}`
      : `Mesures ${from}–${until}`;

const inBars = (number: number): string => `dans ${count(number, 'mesure', 'mesures')}`;

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
  moderate: 'moyen',
  hard: 'difficile',
  'very-hard': 'très difficile',
  'not-playable': 'injouable',
} as const;

/**
 * The words of the sheets in French. From memory: accord des pédales, changement de pédale, levier (the lever), disque
 * (the disc), bémol, bécarre and dièse for the notches; no method was at hand.
 */
export const FRENCH: Words = {
  notes: {
    positions: { flat: 'bémol', natural: 'bécarre', sharp: 'dièse' },
    list,
    major: (tonic) => `${tonic} majeur`,
    minor: (tonic) => `${tonic} mineur`,
    minorTonic: (tonic) => tonic,
  },
  feet: { left: 'gauche', right: 'droit' },
  footHeads: { left: 'Pied gauche', right: 'Pied droit' },
  places: {
    bars,
    extent: ({ from, until, beat, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, temps ${beat}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'note', 'notes') : count(places, 'endroit', 'endroits')}`,
    beatInBar: (bar, beat) => `Mesure ${bar}, temps ${beat}`,
  },
  study: {
    edition: 'édition d’étude',
    contents: 'Table',
    opening: 'Pédales au début',
    tune: 'À accorder avant de jouer',
    difficulty: (grade) => `Difficulté : ${grade}`,
    ownScale: 'Aucune échelle n’est publiée : les degrés sont les nôtres.',
    moves: 'Changements de pédale',
    noMoves: 'Aucune pédale ne change dans cette partie.',
    moveCount: (moves, perMinute) =>
      `${count(moves, 'changement de pédale', 'changements de pédale')}, ${withComma(perMinute, 1)} par minute pendant que la harpe joue.`,
    busiest: 'Mesures les plus chargées',
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
      'L’avance est le temps entre le changement et la première note qui en a besoin, au tempo écrit et sans sauts de lecture.',
    octaves: (middleC) => `${middleC} est ici le do du milieu, que les méthodes françaises appellent do 3.`,
    footwork: 'Les pieds seuls',
    footworkLegend:
      'Les pieds seuls, loin des cordes : comptez à voix haute et changez chaque pédale sur son temps. Une fraction est la part du temps déjà écoulée ; un nombre au-dessus d’un trait épais, un silence d’autant de mesures. Laissez reposer les pieds avant de recommencer.',
    spots: 'Passages difficiles',
    spotsLegend:
      'Les passages qui ne sont pas faciles, le plus difficile d’abord. Travaillez-les du dernier au premier et laissez reposer mains et pieds entre deux exercices.',
    noSpots: 'Tous les passages sont faciles.',
    spot: (rank, where, grade) => `${rank}. ${where} : ${grade}`,
    exercises: 'Exercices',
    noExercises:
      'Aucun : tel qu’il est imprimé, ce passage est injouable. Choisissez d’abord un remède parmi les remarques.',
    feetAlone: 'Les pieds seuls, comme ci-dessus, en comptant à voix haute, sans les cordes.',
    handsAlone:
      'Les mains seules, les pédales laissées comme au début du passage : certaines notes sonnent autrement.',
    slowly: (tempo) =>
      `Mains et pieds ensemble, lentement : à ♩ = ${tempo}, chaque pied a une seconde entre ses changements.`,
    inTempo: (tempo) =>
      `Mains et pieds ensemble au tempo écrit, ♩ = ${tempo} : chaque pied a une seconde entre ses changements.`,
    ladder: (tempi) =>
      tempi.length === 1
        ? `Trois fois sans faute à ♩ = ${tempi[0]}.`
        : `De degré en degré, trois fois sans faute à chacun : ♩ = ${tempi.join(', ')}.`,
    findings: 'Remarques',
    noFindings: 'Aucun problème trouvé : la partie est jouable telle qu’elle est imprimée.',
    notes: 'Notes personnelles',
    seconds: (seconds) => `${withComma(seconds, 1)} s`,
    rate: (perMinute) => withComma(perMinute, 1),
    whyAfter: (note, bar) => `après ${note} à la mesure ${bar}`,
    whyFromStart: 'à tout moment depuis le début',
    whyBefore: (note, bar, beat) => `avant ${note} à la mesure ${bar}, temps ${beat}`,
    whyAfterJump: 'la prochaine note qui en a besoin vient après un saut',
    whyRestores: 'il remet la pédale pour la reprise',
    whyBeforeGrace: 'avant la petite note',
    whyAgainst: (drawbacks) => `Contre : ${drawbacks.join(' ; ')}`,
  },

  inWords: {
    pedal: (pedal, position) => `${pedal} : ${position}`,
    feet: { left: 'pied gauche', right: 'pied droit' },
    levers: { up: 'levier levé', down: 'levier baissé' },
    hands: { left: 'main gauche', right: 'main droite' },
  },
  reading: {
    title: 'Comment lire les indications',
    onThePages: 'Sur les pages de musique',
    setting: 'Un diagramme montre la position de toutes les pédales à partir de cet endroit.',
    change: {
      foot: 'Un nom de note avec son signe est un changement : le pied y déplace cette pédale, avant la note qui en a besoin.',
      note: 'Un nom de note avec son signe est un changement : la pédale doit être ainsi quand vient cette note.',
    },
    feet: 'Quand les deux pieds bougent, le pied droit est en haut, le pied gauche en bas.',
    ring: 'Une pédale entourée a changé depuis le dernier diagramme.',
    wedge: 'Un triangle après le changement veut dire : exactement avec la note.',
    counts: 'Les chiffres au-dessus de la musique sont les temps à compter.',
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
    leverHands: 'Avant le nom est indiquée la main qui le fait.',
  },
  exercise: {
    title: 'Exercice à compléter',
    solution: 'Solution de l’exercice',
    task: {
      pedal: {
        boxes:
          'Écris dans chaque case ce qui s’y trouve : dans une grande, la position de toutes les pédales, dans une petite, le changement. La solution est aux dernières pages.',
        none: 'Écris la position des pédales avant la première note, et chaque changement à l’endroit où le pied bouge. La solution est aux dernières pages.',
      },
      lever: {
        boxes:
          'Écris dans chaque case ce qui s’y trouve : avant la première note, les leviers levés, ensuite chaque changement. La solution est aux dernières pages.',
        none: 'Écris quels leviers sont levés avant la première note, et chaque changement là où une main est libre. La solution est aux dernières pages.',
      },
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
    opening: 'accord au début',
    comment: (place, what, verdict) => `${place}, ${what} : ${verdict}.`,
    sounds: (place, note, instead) => `${place} : au lieu de ${note}, on entend ${instead}.`,
    unstated: (place, note) => `${place} : rien ne dit où se tient la pédale de ${note}.`,
    write: (names) => `Écrire ${names}.`,
    move: (place) => `Sa place est ici : ${place}.`,
    strike: 'À supprimer.',
    tooQuick: 'Le pied n’y a pas le temps.',
    better: (place, why) => `Mieux ici : ${place}. ${why}`,
    why: {
      bends: 'Là où il se trouve, une corde de cette pédale sonne encore.',
      late: 'Il vient juste avant sa note, alors que le pied est libre plus tôt.',
      early: 'Il vient si longtemps avant sa note qu’il faut le garder en mémoire.',
    },
    needless: {
      stands: 'La pédale se tient déjà ainsi.',
      unasked: 'Aucune note ne le demande.',
      twice: 'Il est déjà écrit ici.',
    },
    allRight: 'Chaque note trouve sa pédale, et chaque changement est bien placé.',
  },

  card: {
    moves: 'Changements de pédale',
    changes: 'Changements de levier',
    none: 'aucun',
    perMinute: (count, perMinute) =>
      `${count}, soit ${withComma(perMinute, 1)} par minute tant que la harpe joue`,

    lasts: (length, bars, assumed) =>
      `${length}, ${bars} ${bars === 1 ? 'mesure' : 'mesures'}${assumed ? ' (sans indication de tempo : au pas)' : ''}`,
    tune: 'À accorder',
    tuning: 'Accord',
  },

  tuning: {
    withoutDisc: (from, to) => `${from} à accorder en ${to} : cette corde n’a pas de disque.`,
    retunedLetter: (from, to) => `Toutes les cordes de ${from} en ${to}.`,
    retunedStrings: (from, octaves, to) =>
      octaves.length === 1
        ? `La corde de ${from} de l’octave ${octaves[0]} en ${to}.`
        : `Les cordes de ${from} des octaves ${list(octaves)} en ${to}.`,
    byCents: (string, cents) =>
      `${string} à ${Math.abs(cents)} cents ${cents > 0 ? 'plus haut' : 'plus bas'}.`,
    nothing: 'Rien d’autre que l’accord habituel.',
    caution:
      'N’accordez aucune corde au-dessus de sa hauteur habituelle sans l’accord d’un technicien de la harpe.',
  },

  levers: {
    harp: (strings) => `Harpe à leviers, ${strings} cordes`,
    start: {
      tuning: (key) => `Accord : ${key}.`,
      allDown: 'Tous les leviers baissés.',
      up: (names) => `Leviers levés : ${names.join(', ')}.`,
      allOf: (name) => `tous les ${name}`,
    },
    strings: 'Leviers avant de commencer',
    stringsLegend:
      'Les cordes à partir de la plus grave. Un levier noir en travers de la corde est levé, un gris à côté est baissé. Au-dessus d’une corde haussée se lit ce qu’elle donne, sous chacune son accord.',
    tuningSheet: 'Feuille d’accord',
    tuningHeads: {
      string: 'Corde',
      custom: 'D’habitude',
      tuneTo: 'Accorder en',
      change: 'Différence',
      up: 'Leviers levés',
      gives: 'Avec levier',
      fixed: 'Sans levier',
    },
    tuningLegend: (tuning, harp) =>
      `${harp}. Accordez toutes les cordes, leviers baissés : ${tuning}. Mettez ensuite les leviers.`,
    retuned: (semitones) =>
      `${count(Math.abs(semitones), 'demi-ton', 'demi-tons')} ${semitones > 0 ? 'plus haut' : 'plus bas'}`,
    all: 'tous',
    octaves: (octaves) => `${octaves.length === 1 ? 'octave' : 'octaves :'} ${octaves.join(', ')}`,
    changes: 'Changements de levier',
    noChanges: 'Aucun levier ne change dans cette partie.',
    changeCount: (changes, perMinute) =>
      `${count(changes, 'changement de levier', 'changements de levier')}, ${withComma(perMinute, 1)} par minute pendant que la harpe joue.`,
    noBusyBars: 'Aucune mesure n’a plus d’un changement de levier.',
    busyBar: (bar, changes, names) => `Mesure ${bar} : ${changes} changements (${names})`,
    passageChanges: 'Leviers',
    line: 'Les leviers seuls',
    lineLegend:
      'Les leviers sans les cordes : comptez à voix haute ; la main indiquée met le levier sur son temps et revient. Le nom est la note que la corde donne ensuite. Une fraction est la part du temps déjà écoulée ; un nombre au-dessus d’un trait épais, un silence d’autant de mesures. Laissez reposer les mains avant de recommencer.',
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
      'L’avance est le temps entre le changement de levier et la première note qui en a besoin, au tempo écrit et sans sauts de lecture.',
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
    spotsLegend:
      'Les passages qui ne sont pas faciles, le plus difficile d’abord. Travaillez-les du dernier au premier et laissez reposer les mains entre deux exercices.',
    leversAlone:
      'Les leviers seuls, comme ci-dessus, en comptant à voix haute, sans les cordes ; chaque main revient à sa place au-dessus des cordes.',
    aroundEach:
      'Seulement ce qui entoure chaque changement, aussi lentement qu’il vous plaît : la dernière note de cette main avant lui, le levier, et sa première note après, jusqu’à ce que la main trouve les trois sans regarder.',
    handsAlone:
      'Les notes seules, les leviers laissés comme au début du passage : certaines notes sonnent autrement.',
    slowly: (tempo) =>
      `Notes et leviers ensemble, lentement : à ♩ = ${tempo}, chaque main a une seconde entre ses leviers.`,
    inTempo: (tempo) =>
      `Notes et leviers ensemble au tempo écrit, ♩ = ${tempo} : chaque main a une seconde entre ses leviers.`,
  },

  drawbacks: {
    move: 'chaque changement compte un peu',
    respelling: 'une note est remplacée par son enharmonique',
    footTooBusy: 'le pied n’en a pas le temps',
    pedalsTogether: 'un pied change deux pédales à la fois',
    forbidden: 'aucun changement n’est permis ici',
    stringSounding: 'une corde de cette pédale sonne encore',
    stringRinging: 'une corde de cette pédale résonne peut-être encore',
    noLead: 'il tombe avec la note qui en a besoin',
    shortLead: 'peu de temps avant la note qui en a besoin',
    offBeat: 'il tombe entre les temps',
    betweenBeats: 'il n’y a ici ni temps, ni note, ni silence',
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
    reasons: {
      mostInTenSeconds: ({ mostInTenSeconds: most }, harp) =>
        `Jusqu’à ${harp === 'pedal' ? count(most, 'changement de pédale', 'changements de pédale') : count(most, 'changement de levier', 'changements de levier')} en dix secondes.`,
      shortestSpacing: ({ shortestSpacing: { left, right } }, harp) => {
        const isLeft = right === null || (left !== null && left <= right);
        const seconds = withComma(isLeft ? left! : right, 2);
        return harp === 'pedal'
          ? `Le pied ${isLeft ? 'gauche' : 'droit'} n’a que ${seconds} s entre deux changements.`
          : `La main ${isLeft ? 'gauche' : 'droite'} n’a que ${seconds} s entre deux leviers.`;
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
    easy: ({ changes }, harp) => {
      const [none, seldom] =
        harp === 'pedal'
          ? ['Aucune pédale ne change', 'Les pédales changent rarement']
          : ['Aucun levier ne change', 'Les leviers changent rarement'];
      return `${changes === 0 ? none : seldom}, et les mains ont le temps.`;
    },
    unplayable: (failing) => `Injouable tel que c’est imprimé : ${failingWords(failing)}.`,
    share: (passages, of, grade) =>
      of === 1
        ? `Degré de la partie : ${GRADES[grade]}.`
        : `Passages de degré ${GRADES[grade]} : ${passages} sur ${of}.`,
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
  findings: {
    severities: { stop: 'Injouable', warn: 'Attention', note: 'Remarque' },
    sentences: {
      'string-for-both-hands': 'Les deux mains doivent pincer ici la même corde.',
      'too-many-notes-in-hand': 'Une main a ici plus de notes qu’elle ne peut en prendre.',
      'stretch-too-wide': 'L’écart est trop grand pour une main.',
      'string-restruck-fast': 'Une corde est pincée de nouveau avant d’avoir pu sonner.',
      'harmonic-out-of-range': 'L’harmonique est hors de la région utile.',
      'too-many-harmonics': 'Une main ne peut jouer autant d’harmoniques à la fois.',
      'strings-to-retune': 'Il faut réaccorder des cordes avant la pièce.',
      'no-string-in-tuning': 'Dans cet accord, aucune corde ne donne cette note.',
      'no-free-hand': 'Aucune main n’est libre ici pour le levier.',
      'hand-too-busy': 'La main n’a pas le temps de placer le levier.',
      'other-hand-taken': 'C’est l’autre main qui doit placer le levier.',
      'lever-short-lead': 'Le levier est placé juste avant sa note.',
      'lever-far-ahead': 'Le levier est placé longtemps avant sa note.',
      'hands-hurried-passage': 'Les mains doivent se presser aux leviers dans ces mesures.',
      'lever-restored': 'Le levier est remis en place pour la reprise.',
      'lever-pin-not-honoured': 'Le levier fixé n’a pas pu être respecté ici.',
      'no-markings': 'Aucune indication de pédale.',
      'words-not-understood': 'Mots non compris.',
      'notes-before-marking': 'Position de la pédale inconnue.',
      'note-not-served': 'Mauvaise pédale pour une note.',
      'repeat-lands-wrong': 'Mauvaise pédale après une reprise.',
      'change-too-quick': 'Indications trop rapprochées.',
      'markings-contradict': 'Indications contradictoires.',
      'marking-needless': 'Indication inutile.',
      'marking-bends-string': 'Changement pendant que la corde sonne.',
      'marking-late': 'Tard pour le pied.',
      'marking-early': 'Tôt pour le pied.',
      'glissando-unlike-key': 'Glissando différent de la tonalité.',
      'foot-too-busy': 'Le pied n’a pas le temps de faire ses changements.',
      'pedal-in-two-positions': 'Une pédale devrait être dans deux positions à la fois.',
      'pedals-together': 'Un pied déplace ici deux pédales voisines à la fois.',
      'foot-crossed': 'Un pied déplace ici une pédale de l’autre côté.',
      'feet-hurried-passage': 'Les pieds doivent se presser dans ces mesures.',
      'repeat-restored': 'La pédale est remise en place pour la reprise.',
      'pin-not-honoured': 'Le choix fixé n’a pas pu être respecté ici.',
      'marking-contradicts-notes': 'L’indication de pédale imprimée ne convient pas aux notes.',
      'out-of-range': 'La note est hors de l’étendue de la harpe.',
      'string-in-two-pitches': 'Une corde devrait donner deux hauteurs à la fois.',
      'quarter-tone': 'Aucune pédale ne donne un quart de ton.',
      'double-accidental':
        'Aucune corde ne donne une double altération sous son nom : elle se joue sur une corde voisine.',
      'played-on-other-string': 'La note se joue sur la corde voisine.',
      'fixed-string-tuning': 'Une corde sans disque est à accorder avant la pièce.',
      'fixed-string-in-two-pitches': 'Une corde sans disque devrait donner deux hauteurs.',
      'string-retuned': 'Des cordes sont accordées plus bas pour cette pièce.',
      'string-tuned-higher': 'Des cordes sont accordées plus haut pour cette pièce.',
      'pitch-lost-by-retuning': 'À cause de l’accord choisi, aucune corde ne donne plus cette note.',
      'octaves-differ': 'La même note diffère selon les octaves, et une pédale vaut pour toutes.',
      'ringing-string-moved': 'Une pédale bouge alors qu’une de ses cordes sonne encore.',
      'glissando-setting-guessed': 'L’accord du glissando n’est pas indiqué en entier et a été complété.',
      'flat-key-rings-fuller': 'Dans un ton à bémols, la harpe sonne plus pleinement.',
      'shared-notes-kept': 'Les notes de plusieurs exécutants ne se distinguent pas et sont toutes prévues.',
      'written-for-several': 'La partie est écrite pour plusieurs exécutants.',
    },
    respell: (from, to) => `Jouer ${from} comme ${to}.`,
    omit: (note) => `Omettre ${note}.`,
  },
  handouts: {
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
      `Les cordes sont accordées en ${tuning}, tous les leviers baissés. « Levé » : levier à mettre ; la dernière colonne donne les cordes à accorder autrement avant le morceau, à toutes les octaves. N’accordez aucune corde au-dessus de sa hauteur habituelle sans l’accord d’un technicien de la harpe.`,
    leverTables: {
      major: 'Majeur et mineur naturel',
      'harmonic minor': 'Mineur harmonique',
      'melodic minor': 'Mineur mélodique ascendant',
    },
    key: 'Tonalité',
    toRetune: 'À accorder',
    up: 'levé',
    retune: (letter, to) => `cordes de ${letter} en ${to}`,
    glissandi: 'Accords et gammes pour glissandi',
    glissandiLegend:
      'Avec ces pédales, chaque corde donne une note de l’accord ou de la gamme, et aucune autre. De plusieurs possibilités, celle qui double le moins de cordes est montrée.',
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
    twoFeetLegend: (key) =>
      `Vu de la place du harpiste, ici en ${key}. Un pied change une pédale à la fois, de préférence quand les cordes de ce nom se taisent : celle qui sonne frise ou glisse.`,
    diagram: 'Comment lire un schéma',
    diagramLegend: (setting) =>
      `Les mêmes pédales comme on les imprime : un trait pour chacune dans leur ordre, le trait vertical sépare le pied gauche du droit. Au-dessus de la ligne c’est le bémol, à cheval le bécarre, au-dessous le dièse : ${setting}.`,
    fixed: 'Cordes sans disques',
    fixedHeads: { strings: 'Cordes', range: 'Étendue', fixed: 'Sans disques', harp: 'Harpe' },
    fixedLegend:
      'Aucune pédale ne change ces cordes. On les accorde à la main avant le morceau selon son besoin, et elles gardent cette note. N’accordez aucune corde au-dessus de sa hauteur habituelle sans l’accord d’un technicien de la harpe.',
    noFixed: 'aucune',
    pedalHarp: (strings) => `Harpe à pédales, ${strings} cordes`,
  },

  set: {
    title: 'Recueil de classe',
    contents: 'Table',
    difficulty: 'Difficulté',
    difficultyLegend: (ownScale) =>
      `Le plus facile d’abord. Une minute ne compte que pendant que la harpe joue. ${ownScale}`,
    heads: {
      page: 'Page',
      grade: 'Difficulté',
      changes: 'Changements',
      perMinute: 'Par minute',
      length: 'Durée',
      piece: 'Morceau',
    },
    refused: 'Absents de ce recueil',
  },
};
