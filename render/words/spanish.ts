import { capitalize, type FailingBars, type Measures } from '../../engine/index.ts';
import { withComma } from './decimal-comma.ts';
import type { Words } from './worded.ts';

const count = (number: number, one: string, several: string): string =>
  `${number} ${number === 1 ? one : several}`;

const list = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} y ${names.at(-1)}`;

const bars = (from: string, until: string): string =>
  from === '' || until === ''
    ? 'Compás sin número'
    : from === until
      ? `Compás ${from}`
      : `Compases ${from}–${until}`;

const inBars = (number: number): string => `en ${count(number, 'compás', 'compases')}`;

const failingWords = ({ feet, hands, strings }: FailingBars): string =>
  [
    ...(feet > 0 ? [`los pies no tienen tiempo ${inBars(feet)}`] : []),
    ...(hands > 0 ? [`ninguna mano está libre para una palanca ${inBars(hands)}`] : []),
    ...(strings > 0 ? [`las cuerdas no pueden dar las notas ${inBars(strings)}`] : []),
  ].join(', ');

const handsWords = ({ barsOverloaded: { left, right } }: Measures): string =>
  [
    ...(left > 0 ? [`la mano izquierda tiene demasiado ${inBars(left)}`] : []),
    ...(right > 0 ? [`la mano derecha tiene demasiado ${inBars(right)}`] : []),
  ].join(', ');

const GRADES = {
  easy: 'fácil',
  moderate: 'medio',
  hard: 'difícil',
  'very-hard': 'muy difícil',
  'not-playable': 'no tocable',
} as const;

/**
 * The words of the sheets in Spanish. From memory: posición de los pedales, cambio de pedal, palanca (the lever), disco
 * (the disc), bemol, becuadro and sostenido for the notches; no method was at hand.
 */
export const SPANISH: Words = {
  notes: {
    positions: { flat: 'bemol', natural: 'becuadro', sharp: 'sostenido' },
    list,
    major: (tonic) => `${tonic} mayor`,
    minor: (tonic) => `${tonic} menor`,
    minorTonic: (tonic) => tonic,
  },
  feet: { left: 'izquierdo', right: 'derecho' },
  footHeads: { left: 'Pie izquierdo', right: 'Pie derecho' },
  places: {
    bars,
    extent: ({ from, until, beat, places, notes }) =>
      places === 1
        ? `${bars(from, from)}, tiempo ${beat}`
        : `${bars(from, until)}, ${notes > 0 ? count(notes, 'nota', 'notas') : count(places, 'lugar', 'lugares')}`,
    beatInBar: (bar, beat) => `Compás ${bar}, tiempo ${beat}`,
  },
  study: {
    edition: 'edición de estudio',
    contents: 'Índice',
    opening: 'Pedales al comienzo',
    tune: 'Para afinar antes',
    difficulty: (grade) => `Dificultad: ${grade}`,
    ownScale: 'No hay ninguna escala publicada: los grados son nuestros.',
    moves: 'Cambios de pedal',
    noMoves: 'Ningún pedal cambia en esta parte.',
    moveCount: (moves, perMinute) =>
      `${count(moves, 'cambio de pedal', 'cambios de pedal')}, ${withComma(perMinute, 1)} por minuto mientras toca el arpa.`,
    busiest: 'Compases con más cambios',
    noBusyBars: 'Ningún compás tiene más de un cambio.',
    busyBar: (bar, moves, changes) => `Compás ${bar}: ${moves} cambios (${changes})`,
    passages: 'Dificultad por pasajes',
    passageHeads: {
      bars: 'Compases',
      grade: 'Dificultad',
      moves: 'Cambios',
      perMinute: 'Por minuto',
      why: 'Por qué',
    },
    part: 'La parte',
    chart: 'Cuadro de los pedales',
    chartLegend:
      'Un carril para cada pedal: arriba los tres del pie izquierdo, abajo los cuatro del derecho. La línea en lo alto de su carril es el bemol, en el medio el becuadro, abajo el sostenido, como están los pedales. Cada cambio lleva el nombre que el pedal da desde ahí; cada línea empieza con la posición vigente. Varios compases sin cambio van como uno solo: una línea gruesa es un silencio, los puntos son música.',
    table: 'Lista de los cambios',
    tableHeads: {
      bar: 'Compás',
      beat: 'Tiempo',
      foot: 'Pie',
      pedal: 'Pedal',
      from: 'De',
      to: 'A',
      lead: 'Antelación',
      why: 'Por qué ahí',
    },
    tableLegend:
      'La antelación es el tiempo desde el cambio hasta la primera nota que lo necesita, al tempo escrito y leyendo sin saltos.',
    octaves: (middleC) => `${middleC} es el do central.`,
    footwork: 'Los pies solos',
    footworkLegend:
      'Los pies solos, lejos de las cuerdas: cuente en voz alta y mueva cada pedal en su tiempo. Una fracción es la parte del tiempo ya pasada; un número sobre una línea gruesa, un silencio de otros tantos compases. Deje descansar los pies antes de volver a empezar.',
    spots: 'Pasajes difíciles',
    spotsLegend:
      'Los pasajes que no son fáciles, primero el más difícil. Estúdielos del último al primero y deje descansar manos y pies entre dos ejercicios.',
    noSpots: 'Todos los pasajes son fáciles.',
    spot: (rank, where, grade) => `${rank}. ${where}: ${grade}`,
    exercises: 'Ejercicios',
    noExercises:
      'Ninguno: como está impreso, este pasaje no se puede tocar. Elija antes un remedio entre las observaciones.',
    feetAlone: 'Los pies solos, como arriba, contando en voz alta, sin las cuerdas.',
    handsAlone:
      'Las manos solas, con los pedales como al comienzo del pasaje: algunas notas suenan de otro modo.',
    slowly: (tempo) =>
      `Manos y pies juntos, despacio: a ♩ = ${tempo} cada pie tiene un segundo entre sus cambios.`,
    inTempo: (tempo) =>
      `Manos y pies juntos al tempo escrito, ♩ = ${tempo}: cada pie tiene un segundo entre sus cambios.`,
    ladder: (tempi) =>
      tempi.length === 1
        ? `Tres veces sin fallos a ♩ = ${tempi[0]}.`
        : `De peldaño en peldaño, tres veces sin fallos en cada uno: ♩ = ${tempi.join(', ')}.`,
    findings: 'Observaciones',
    noFindings: 'No se ha encontrado ningún problema: la parte se puede tocar como está impresa.',
    notes: 'Apuntes',
    seconds: (seconds) => `${withComma(seconds, 1)} s`,
    rate: (perMinute) => withComma(perMinute, 1),
    whyAfter: (note, bar) => `después de ${note} en el compás ${bar}`,
    whyFromStart: 'en cualquier momento desde el comienzo',
    whyBefore: (note, bar, beat) => `antes de ${note} en el compás ${bar}, tiempo ${beat}`,
    whyAfterJump: 'la próxima nota que lo necesita viene tras un salto',
    whyRestores: 'devuelve el pedal para la repetición',
    whyBeforeGrace: 'antes de la nota de adorno',
    whyAgainst: (drawbacks) => `En contra: ${drawbacks.join('; ')}`,
  },

  inWords: {
    pedal: (pedal, position) => `${pedal}: ${position}`,
    feet: { left: 'pie izquierdo', right: 'pie derecho' },
    levers: { up: 'palanca subida', down: 'palanca bajada' },
    hands: { left: 'mano izquierda', right: 'mano derecha' },
  },
  reading: {
    title: 'Cómo se leen las indicaciones',
    onThePages: 'En las páginas de música',
    setting: 'Un diagrama muestra cómo están todos los pedales desde ese punto.',
    change: {
      foot: 'Un nombre de nota con su signo es un cambio: allí el pie mueve este pedal, antes de la nota que lo necesita.',
      note: 'Un nombre de nota con su signo es un cambio: el pedal debe estar así cuando llega esta nota.',
    },
    feet: 'Donde cambian los dos pies, el derecho está arriba y el izquierdo abajo.',
    ring: 'Un pedal rodeado ha cambiado desde el último diagrama.',
    wedge: 'Una cuña después del cambio quiere decir: exactamente con la nota.',
    counts: 'Las cifras sobre la música son los tiempos que se cuentan.',
    colours: {
      'c-red-f-black': 'Las notas de las cuerdas de do son rojas, como las cuerdas.',
      'c-red-f-blue':
        'Las notas de las cuerdas de do son rojas y las de fa azules, para encontrar las cuerdas enseguida.',
    },
    leverTable:
      'La tabla de las palancas tiene una columna para cada nota y una fila para cada octava. Un triángulo es una palanca subida, una raya una palanca bajada.',
    leverChange: {
      names:
        'Un nombre con un número es un cambio: allí una mano mueve la palanca de esta cuerda, que da entonces esta nota.',
      notes:
        'Una nota pequeña es un cambio: allí una mano mueve la palanca de esta cuerda, que da entonces esta nota.',
    },
    leverHands: 'Antes del nombre está la mano que lo hace.',
  },
  exercise: {
    title: 'Ejercicio',
    solution: 'Solución',
    task: {
      pedal: {
        boxes:
          'Escribe en cada casilla lo que va allí: en una ancha cómo están todos los pedales, en una pequeña el cambio. La solución está en las últimas páginas.',
        none: 'Escribe cómo están los pedales antes de la primera nota, y cada cambio donde el pie se mueve. La solución está en las últimas páginas.',
      },
      lever: {
        boxes:
          'Escribe en cada casilla lo que va allí: antes de la primera nota qué palancas están subidas, después cada cambio. La solución está en las últimas páginas.',
        none: 'Escribe qué palancas están subidas antes de la primera nota, y cada cambio donde una mano está libre. La solución está en las últimas páginas.',
      },
    },
  },

  marked: {
    title: 'Corrección',
    points: (given, most) => `${given} de ${most} puntos`,
    counts: (counts) =>
      [
        `bien: ${counts.right}`,
        `con mejor lugar: ${counts['better-place']}`,
        `mal: ${counts.wrong}`,
        `faltan: ${counts.missing}`,
        `innecesarios: ${counts.needless}`,
      ].join(', '),
    verdicts: {
      right: 'Bien',
      'better-place': 'Bien, pero hay un lugar mejor',
      wrong: 'Mal',
      missing: 'Falta',
      needless: 'Innecesario',
    },
    opening: 'posición al comienzo',
    comment: (place, what, verdict) => `${place}, ${what}: ${verdict}.`,
    sounds: (place, note, instead) => `${place}: en lugar de ${note} suena ${instead}.`,
    unstated: (place, note) => `${place}: nada dice cómo está el pedal de ${note}.`,
    write: (names) => `Escribir ${names}.`,
    move: (place) => `Su lugar es este: ${place}.`,
    strike: 'Tacharlo.',
    tooQuick: 'Allí el pie no tiene tiempo.',
    better: (place, why) => `Mejor aquí: ${place}. ${why}`,
    why: {
      bends: 'Donde está el cambio, una cuerda de este pedal suena todavía.',
      late: 'Viene justo antes de su nota, aunque el pie está libre antes.',
      early: 'Viene tanto antes de su nota que hay que recordarlo.',
    },
    needless: {
      stands: 'El pedal ya está así.',
      unasked: 'Ninguna nota lo pide.',
      twice: 'Ya está escrito aquí.',
    },
    allRight: 'Cada nota encuentra su pedal, y cada cambio está en buen lugar.',
  },

  card: {
    moves: 'Cambios de pedal',
    changes: 'Cambios de palanca',
    none: 'ninguno',
    perMinute: (count, perMinute) => `${count}, ${withComma(perMinute, 1)} por minuto mientras toca el arpa`,

    lasts: (length, bars, assumed) =>
      `${length}, ${bars} ${bars === 1 ? 'compás' : 'compases'}${assumed ? ' (sin indicación de tempo: al paso)' : ''}`,
    tune: 'Por afinar',
    tuning: 'Afinación',
  },

  tuning: {
    withoutDisc: (from, to) => `${from} se afina en ${to}: esta cuerda no tiene disco.`,
    retunedLetter: (from, to) => `Todas las cuerdas de ${from} en ${to}.`,
    retunedStrings: (from, octaves, to) =>
      octaves.length === 1
        ? `La cuerda de ${from} de la octava ${octaves[0]} en ${to}.`
        : `Las cuerdas de ${from} de las octavas ${list(octaves)} en ${to}.`,
    byCents: (string, cents) => `${string} ${Math.abs(cents)} cents ${cents > 0 ? 'más alto' : 'más bajo'}.`,
    nothing: 'Nada más que la afinación habitual.',
    caution: 'No suba ninguna cuerda por encima de su altura habitual sin el consejo de un técnico de arpas.',
  },

  levers: {
    harp: (strings) => `Arpa de palancas, ${strings} cuerdas`,
    start: {
      tuning: (key) => `Afinación: ${key}.`,
      allDown: 'Todas las palancas bajadas.',
      up: (names) => `Palancas subidas: ${names.join(', ')}.`,
      allOf: (name) => `todos los ${name}`,
    },
    strings: 'Palancas antes de empezar',
    stringsLegend:
      'Las cuerdas desde la más grave. Una palanca negra a través de la cuerda está subida, una gris al lado está bajada. Sobre una cuerda elevada está lo que da, debajo de cada una su afinación.',
    tuningSheet: 'Hoja de afinación',
    tuningHeads: {
      string: 'Cuerda',
      custom: 'De costumbre',
      tuneTo: 'Afinar en',
      change: 'Diferencia',
      up: 'Subidas',
      gives: 'Con palanca',
      fixed: 'Sin palanca',
    },
    tuningLegend: (tuning, harp) =>
      `${harp}. Afine todas las cuerdas con las palancas bajadas: ${tuning}. Luego ponga las palancas.`,
    retuned: (semitones) =>
      `${count(Math.abs(semitones), 'semitono', 'semitonos')} ${semitones > 0 ? 'más alto' : 'más bajo'}`,
    all: 'todas',
    octaves: (octaves) => `${octaves.length === 1 ? 'octava' : 'octavas'} ${octaves.join(', ')}`,
    changes: 'Cambios de palanca',
    noChanges: 'Ninguna palanca cambia en esta parte.',
    changeCount: (changes, perMinute) =>
      `${count(changes, 'cambio de palanca', 'cambios de palanca')}, ${withComma(perMinute, 1)} por minuto mientras toca el arpa.`,
    noBusyBars: 'Ningún compás tiene más de un cambio de palanca.',
    busyBar: (bar, changes, names) => `Compás ${bar}: ${changes} cambios (${names})`,
    passageChanges: 'Cambios',
    line: 'Las palancas solas',
    lineLegend:
      'Las palancas sin las cuerdas: cuente en voz alta; la mano indicada pone la palanca en su tiempo y vuelve. El nombre es la nota que la cuerda da desde ahí. Una fracción es la parte del tiempo ya pasada; un número sobre una línea gruesa, un silencio de otros tantos compases. Deje descansar las manos antes de volver a empezar.',
    table: 'Lista de los cambios de palanca',
    tableHeads: {
      bar: 'Compás',
      beat: 'Tiempo',
      hand: 'Mano',
      lever: 'Palanca',
      to: 'Hacia',
      gives: 'Da',
      lead: 'Antelación',
      why: 'Por qué ahí',
    },
    tableLegend:
      'La antelación es el tiempo desde el cambio de palanca hasta la primera nota que lo necesita, al tempo escrito y leyendo sin saltos.',
    positions: { up: 'subida', down: 'bajada' },
    hands: { left: 'izquierda', right: 'derecha' },
    handLabels: { left: 'm.i.', right: 'm.d.' },
    handFree: (hand, leaves, returns) =>
      `la mano ${hand === 'left' ? 'izquierda' : 'derecha'} está libre ${[
        ...(leaves === null ? [] : [`después de ${leaves}`]),
        ...(returns === null ? [] : [`hasta ${returns}`]),
        ...(leaves === null && returns === null ? ['siempre'] : []),
      ].join(' ')}`,
    noteAt: (note, bar) => `${note} en el compás ${bar}`,
    spotsLegend:
      'Los pasajes que no son fáciles, primero el más difícil. Estúdielos del último al primero y deje descansar las manos entre dos ejercicios.',
    leversAlone:
      'Las palancas solas, como arriba, contando en voz alta, sin las cuerdas; cada mano vuelve a su lugar sobre las cuerdas.',
    aroundEach:
      'Solo lo que rodea cada cambio, tan despacio como quiera: la última nota de esa mano antes, la palanca y su primera nota después, hasta que la mano encuentre las tres sin mirar.',
    handsAlone:
      'Las notas solas, con las palancas como al comienzo del pasaje: algunas notas suenan de otro modo.',
    slowly: (tempo) =>
      `Notas y palancas juntas, despacio: a ♩ = ${tempo} cada mano tiene un segundo entre sus palancas.`,
    inTempo: (tempo) =>
      `Notas y palancas juntas al tempo escrito, ♩ = ${tempo}: cada mano tiene un segundo entre sus palancas.`,
  },

  drawbacks: {
    move: 'cada cambio cuenta un poco',
    respelling: 'una nota se sustituye por su enarmónica',
    footTooBusy: 'el pie no tiene tiempo',
    pedalsTogether: 'un pie mueve dos pedales a la vez',
    forbidden: 'aquí no se permiten cambios',
    stringSounding: 'una cuerda de este pedal suena todavía',
    stringRinging: 'una cuerda de este pedal quizá vibra todavía',
    noLead: 'cae junto con la nota que lo necesita',
    shortLead: 'poco tiempo antes de la nota que lo necesita',
    offBeat: 'cae entre los tiempos',
    betweenBeats: 'aquí no hay ni tiempo, ni nota, ni silencio',
    betweenBeatsOfRest: 'en el silencio cae entre los tiempos',
    handsBusy: 'las manos están tocando',
    handsHolding: 'hay notas mantenidas',
    perNotePlucked: 'en este momento se tocan notas',
    insideRun: 'cae dentro de un pasaje rápido',
    closeMoves: 'el mismo pie se ha movido poco antes',
    perSecondAhead: 'viene mucho antes de su nota',
    perSecondForgotten: 'la indicación puede olvidarse antes de su nota',
    missedRest: 'el silencio anterior era el lugar indicado',
    startsElsewhere: 'al comienzo el pedal está en otro lugar',
    restoring: 'solo hace falta cuando la música vuelve aquí',
    twoNotchesInHaste: 'dos muescas en poco tiempo',
  },
  difficulty: {
    grades: GRADES,
    reasons: {
      mostInTenSeconds: ({ mostInTenSeconds: most }, harp) =>
        `Hasta ${harp === 'pedal' ? count(most, 'cambio de pedal', 'cambios de pedal') : count(most, 'cambio de palanca', 'cambios de palanca')} en diez segundos.`,
      shortestSpacing: ({ shortestSpacing: { left, right } }, harp) => {
        const isLeft = right === null || (left !== null && left <= right);
        const seconds = withComma(isLeft ? left! : right, 2);
        return harp === 'pedal'
          ? `El pie ${isLeft ? 'izquierdo' : 'derecho'} tiene solo ${seconds} s entre dos cambios.`
          : `La mano ${isLeft ? 'izquierda' : 'derecha'} tiene solo ${seconds} s entre dos palancas.`;
      },
      atThePluck: ({ atThePluck }) =>
        `El ${Math.round(atThePluck * 100)} % de los cambios cae junto con la nota que los necesita.`,
      stringsBent: ({ stringsBent }) =>
        stringsBent === 1
          ? 'Un cambio altera una cuerda que suena todavía.'
          : `${stringsBent} cambios alteran una cuerda que suena todavía.`,
      barsOverloaded: (measures) => `${capitalize(handsWords(measures))}.`,
      feetTogether: ({ feetTogether }) =>
        `Dos pedales se mueven a la vez ${count(feetTogether, 'vez', 'veces')}.`,
      notesPerSecond: ({ notesPerSecond }) =>
        `Las manos tocan ${count(Math.round(notesPerSecond), 'nota', 'notas')} por segundo.`,
    },
    easy: ({ changes }, harp) => {
      const [none, seldom] =
        harp === 'pedal'
          ? ['Ningún pedal cambia', 'Los pedales cambian pocas veces']
          : ['Ninguna palanca cambia', 'Las palancas cambian pocas veces'];
      return `${changes === 0 ? none : seldom}, y las manos tienen tiempo.`;
    },
    unplayable: (failing) => `No se puede tocar como está impreso: ${failingWords(failing)}.`,
    share: (passages, of, grade) =>
      of === 1
        ? `Grado de la parte: ${GRADES[grade]}.`
        : `Pasajes de grado ${GRADES[grade]}: ${passages} de ${of}.`,
    verdict: (failing, measures, harp) => {
      const hands = handsWords(measures);
      if (failing.first !== null) {
        const where = failing.first === '' ? '' : `: el primer obstáculo está en el compás ${failing.first}`;
        return [`no se puede tocar como está impreso${where}`, failingWords(failing), hands]
          .filter((each) => each !== '')
          .join('; ');
      }
      const whole = harp === 'pedal' ? 'tocable para manos y pies' : 'tocable como está impreso';
      const part = harp === 'pedal' ? 'tocable para los pies' : 'las palancas son tocables';
      return hands === '' ? whole : `${part}; ${hands}`;
    },
  },
  findings: {
    severities: { stop: 'No se puede tocar', warn: 'Atención', note: 'Nota' },
    sentences: {
      'string-for-both-hands': 'Las dos manos deben pulsar aquí la misma cuerda.',
      'too-many-notes-in-hand': 'Una mano tiene aquí más notas de las que puede tomar.',
      'stretch-too-wide': 'La extensión es demasiado grande para una mano.',
      'string-restruck-fast': 'Una cuerda se pulsa de nuevo antes de poder sonar.',
      'harmonic-out-of-range': 'El armónico está fuera del registro útil.',
      'too-many-harmonics': 'Una mano no puede tocar tantos armónicos a la vez.',
      'strings-to-retune': 'Antes de la pieza hay que reafinar cuerdas.',
      'no-string-in-tuning': 'En esta afinación ninguna cuerda da esta nota.',
      'no-free-hand': 'Aquí ninguna mano está libre para la palanca.',
      'hand-too-busy': 'La mano no tiene tiempo de mover la palanca.',
      'other-hand-taken': 'La palanca debe moverla la otra mano.',
      'lever-short-lead': 'La palanca se mueve justo antes de su nota.',
      'lever-far-ahead': 'La palanca se mueve mucho antes de su nota.',
      'hands-hurried-passage': 'En estos compases las manos tienen prisa en las palancas.',
      'lever-restored': 'La palanca vuelve a su sitio para la repetición.',
      'lever-pin-not-honoured': 'La palanca fijada no se pudo respetar aquí.',
      'no-markings': 'Ninguna indicación de pedal.',
      'words-not-understood': 'Palabras no comprendidas.',
      'notes-before-marking': 'Posición del pedal desconocida.',
      'note-not-served': 'Pedal equivocado para una nota.',
      'repeat-lands-wrong': 'Pedal equivocado tras una repetición.',
      'change-too-quick': 'Indicaciones demasiado juntas.',
      'markings-contradict': 'Indicaciones contradictorias.',
      'marking-needless': 'Indicación innecesaria.',
      'marking-bends-string': 'Cambio mientras suena la cuerda.',
      'marking-late': 'Tarde para el pie.',
      'marking-early': 'Pronto para el pie.',
      'glissando-unlike-key': 'Glissando distinto de la tonalidad.',
      'foot-too-busy': 'El pie no tiene tiempo para sus cambios.',
      'pedal-in-two-positions': 'Un pedal tendría que estar en dos posiciones a la vez.',
      'pedals-together': 'Un pie mueve aquí dos pedales vecinos a la vez.',
      'foot-crossed': 'Un pie mueve aquí un pedal del otro lado.',
      'feet-hurried-passage': 'En estos compases los pies tienen prisa.',
      'repeat-restored': 'El pedal vuelve a su sitio para la repetición.',
      'pin-not-honoured': 'La decisión fijada no se pudo respetar aquí.',
      'marking-contradicts-notes': 'La indicación de pedal impresa no concuerda con las notas.',
      'out-of-range': 'La nota está fuera de la extensión del arpa.',
      'string-in-two-pitches': 'Una cuerda tendría que dar dos alturas a la vez.',
      'quarter-tone': 'Ningún pedal da un cuarto de tono.',
      'double-accidental':
        'Ninguna cuerda da una doble alteración con su nombre: se toca en una cuerda vecina.',
      'played-on-other-string': 'La nota se toca en la cuerda vecina.',
      'fixed-string-tuning': 'Una cuerda sin disco debe afinarse antes de la pieza.',
      'fixed-string-in-two-pitches': 'Una cuerda sin disco tendría que dar dos alturas.',
      'string-retuned': 'Para esta pieza hay cuerdas afinadas más abajo.',
      'string-tuned-higher': 'Para esta pieza hay cuerdas afinadas más arriba.',
      'pitch-lost-by-retuning': 'Por la afinación ninguna cuerda da ya esta nota.',
      'octaves-differ': 'La misma nota difiere según la octava, y un pedal vale para todas.',
      'ringing-string-moved': 'Un pedal se mueve mientras una de sus cuerdas suena todavía.',
      'glissando-setting-guessed':
        'La posición para el glissando no está indicada por completo y se ha completado.',
      'flat-key-rings-fuller': 'En una tonalidad con bemoles el arpa suena más llena.',
      'shared-notes-kept': 'Las notas de varios intérpretes no se distinguen y están todas previstas.',
      'written-for-several': 'La parte está escrita para varios intérpretes.',
    },
    respell: (from, to) => `Tocar ${from} como ${to}.`,
    omit: (note) => `Omitir ${note}.`,
  },
  handouts: {
    titles: {
      keys: 'Tonalidades',
      glissandi: 'Glissandos',
      'doubled-strings': 'Cuerdas dobles',
      pedals: 'Pedales y discos',
    },
    pedalKeys: 'Tonalidades en el arpa de pedales',
    pedalKeysLegend:
      'Una tonalidad mayor y su relativa menor tienen la misma posición. Para el menor armónico y el menor melódico ascendente mueva también estos pedales. Ningún pedal da un doble sostenido, aquí entre paréntesis: se toca en la cuerda superior, cuyo pedal cambia para ello.',
    pedalKeyHeads: {
      major: 'Mayor',
      minor: 'Menor',
      setting: 'Pedales',
      names: '',
      harmonic: 'Armónico',
      melodic: 'Melódico asc.',
    },
    leverKeys: 'Tonalidades en el arpa de palancas',
    leverKeysLegend: (tuning) =>
      `Las cuerdas están afinadas en ${tuning} con todas las palancas bajadas. «Sube» es una palanca que se sube; en la última columna están las cuerdas que se afinan de otro modo antes de la pieza, en todas las octavas. No suba ninguna cuerda por encima de su altura habitual sin el consejo de un técnico de arpas.`,
    leverTables: {
      major: 'Mayor y menor natural',
      'harmonic minor': 'Menor armónico',
      'melodic minor': 'Menor melódico ascendente',
    },
    key: 'Tonalidad',
    toRetune: 'Para afinar',
    up: 'sube',
    retune: (letter, to) => `cuerdas de ${letter} en ${to}`,
    glissandi: 'Acordes y escalas para glissandos',
    glissandiLegend:
      'Con estas posiciones cada cuerda da una nota del acorde o de la escala, y ninguna otra. De varias posiciones se muestra la que tiene menos cuerdas dobles.',
    sounds: {
      'diminished seventh': 'Séptima disminuida',
      'dominant ninth': 'Novena de dominante',
      'dominant seventh': 'Séptima de dominante',
      'minor seventh': 'Séptima menor',
      'half-diminished seventh': 'Séptima semidisminuida',
      'major sixth': 'Mayor con sexta',
      'whole tone': 'Escala de tonos enteros',
      'major pentatonic': 'Pentatónica mayor',
      'minor pentatonic': 'Pentatónica menor',
      major: 'Mayor',
      'harmonic minor': 'Menor armónico',
    },
    noSetting: (roots) => `Ninguna posición da exactamente estas notas sobre ${roots.join(', ')}.`,
    doubled: 'Cuerdas dobles',
    doubledLegend:
      'Dos cuerdas vecinas pueden dar la misma nota: para notas repetidas sin apagar, para un trémolo sobre una nota y para un sonido más lleno. Tres notas quedan solas: las cuerdas vecinas necesitarían un doble sostenido o un doble bemol.',
    doubledHeads: { pitch: 'Nota', strings: 'Cuerdas', pedals: 'Pedales' },
    oneString: 'una sola',
    twoStrings: 'dos',
    oneEachFoot: (pedals) => `${pedals}, uno con cada pie`,
    bothOneFoot: (pedals, foot) => `${pedals}, ambos con el pie ${foot === 'left' ? 'izquierdo' : 'derecho'}`,
    fullest: 'Tres notas dobles a la vez',
    fullestLegend: (settings, strings) =>
      `Las ${settings} posiciones en que tres notas están dobles, de modo que las ${strings} cuerdas de una octava dan solo cuatro notas.`,
    mechanism: 'Cómo actúan pedales y discos',
    mechanismLegend:
      'Siete pedales, uno para cada nombre de nota. Un pedal gobierna a la vez todas las cuerdas de su nombre, en todas las octavas, por varillas en la columna y dos discos en cada cuerda.',
    positions: 'Tres posiciones',
    positionsLegend:
      'Cada disco que sujeta la cuerda la sube un semitono: suena la parte gruesa de la cuerda. Todos los demás pedales actúan igual. Ningún pedal da un doble sostenido ni un doble bemol: una nota así se toca en una cuerda vecina.',
    gives: (name) => `da ${name}`,
    notches: {
      flat: 'muesca alta, ningún disco',
      natural: 'muesca media, disco superior',
      sharp: 'muesca baja, los dos discos',
    },
    twoFeet: 'Dos pies',
    pedalsOfFoot: {
      left: (letters) => `El pie izquierdo tiene los pedales ${letters}, de fuera hacia dentro.`,
      right: (letters) => `El pie derecho tiene los pedales ${letters}, de dentro hacia fuera.`,
    },
    twoFeetLegend: (key) =>
      `Visto desde el asiento de quien toca, aquí en ${key}. Un pie mueve un pedal cada vez, mejor mientras las cuerdas de ese nombre callan: la que suena zumba o se desliza.`,
    diagram: 'Cómo se lee un esquema',
    diagramLegend: (setting) =>
      `La misma posición como se imprime: un trazo para cada pedal en su orden, la línea vertical separa el pie izquierdo del derecho. Sobre la línea es bemol, en ella becuadro, debajo sostenido: ${setting}.`,
    fixed: 'Cuerdas sin discos',
    fixedHeads: { strings: 'Cuerdas', range: 'Extensión', fixed: 'Sin discos', harp: 'Arpa' },
    fixedLegend:
      'Ningún pedal mueve estas cuerdas. Se afinan a mano antes de la pieza según lo que pide, y conservan esa nota. No suba ninguna cuerda por encima de su altura habitual sin el consejo de un técnico de arpas.',
    noFixed: 'ninguna',
    pedalHarp: (strings) => `Arpa de pedales, ${strings} cuerdas`,
  },

  set: {
    title: 'Cuaderno de clase',
    contents: 'Índice',
    difficulty: 'Dificultad',
    difficultyLegend: (ownScale) =>
      `Primero la más fácil. Un minuto cuenta solo mientras toca el arpa. ${ownScale}`,
    heads: {
      page: 'Página',
      grade: 'Dificultad',
      changes: 'Cambios',
      perMinute: 'Por minuto',
      length: 'Duración',
      piece: 'Pieza',
    },
    refused: 'No están en este cuaderno',
  },
};
