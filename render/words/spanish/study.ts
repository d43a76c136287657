import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count, list } from './phrases.ts';

export const STUDY_WORDS: Words['study'] = {
  edition: 'edición de estudio',
  contents: 'Índice',
  opening: 'Pedales al comienzo',
  movement: (numeral) => `Movimiento ${numeral}`,
  tune: 'Para afinar antes',
  difficulty: (grade) => `Dificultad: ${grade}`,
  ownScale: 'No hay ninguna escala publicada: los grados son nuestros.',
  moves: 'Cambios de pedal',
  noMoves: 'Ningún pedal cambia en esta parte: no hay cambios que practicar.',
  moveCount: (moves, perMinute) =>
    `${count(moves, 'cambio de pedal', 'cambios de pedal')}, ${withComma(perMinute, 1)} por minuto mientras toca el arpa.`,
  chordSymbols:
    'Los símbolos de acordes se imprimen, pero no se tienen en cuenta: todo lo que se ajusta aquí sirve a las notas escritas. Quien toque los acordes, ajuste también sus notas.',
  busiest: 'Compases con más cambios',
  asBusy: (bars) => `Otros tantos en ${bars.length === 1 ? 'el compás' : 'los compases'} ${list(bars)}.`,
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
    'La antelación es el tiempo desde el cambio hasta la primera nota que lo necesita, al tempo de ejecución y leyendo sin saltos.',
  octaves: (middleC) => `${middleC} es el do central.`,
  fullTempo: (note) => `${note}. Es el tempo de ejecución de estas hojas.`,
  footwork: 'Los pies solos',
  pauseLegend: 'Lo que está antes del primer tiempo de un movimiento se prepara entre los dos movimientos.',
  footworkLegend:
    'Los pies solos, lejos de las cuerdas: cuente en voz alta y mueva cada pedal en su tiempo. Una fracción es la parte del tiempo ya pasada (sin fracción: entre los tiempos); un número sobre una línea gruesa, otros tantos compases en que los pies descansan. Deje descansar los pies antes de volver a empezar.',
  counting: (metres) => `Los tiempos son los que se cuentan en voz alta (en un compás de ${metres}).`,
  countingUpbeat: 'Una anacrusa tiene los últimos tiempos de su compás.',
  countingDivided: 'Un compás impreso en dos partes se sigue contando en la segunda.',
  spots: 'Pasajes difíciles',
  spotsLegend:
    'Los pasajes que no son fáciles, primero los que no se pueden tocar y luego el más difícil: según el nivel y luego según el mayor número de cambios en diez segundos. Estúdielos del último al primero y deje descansar manos y pies entre dos ejercicios. Los compases pálidos no forman parte de ellos.',
  noSpots: 'Todos los pasajes son fáciles.',
  spot: (rank, where, grade) => `${rank}. ${where}: ${grade}`,
  exercises: 'Ejercicios',
  noExercises:
    'Ninguno: como está impreso, este pasaje no se puede tocar. Elija antes un remedio entre las observaciones.',
  exceptBars: (names, count) =>
    count === 1
      ? `El compás ${names} no se puede tocar como está impreso: elija antes un remedio entre las observaciones, o practique sin él.`
      : `Los compases ${names} no se pueden tocar como están impresos: elija antes un remedio entre las observaciones, o practique sin ellos.`,
  feetAlone: 'Los pies solos, como arriba, contando en voz alta, sin las cuerdas.',
  eachHand: 'Cada mano sola, tan despacio como haga falta, hasta que tenga todas las notas.',
  handsAlone:
    'Las manos solas, con los pedales como al comienzo del pasaje: algunas notas suenan de otro modo.',
  slowly: (beat, tempo) =>
    `Manos y pies juntos, despacio: a ${beat} = ${tempo} cada pie tiene al menos un segundo entre sus cambios.`,
  inTempo: (beat, tempo) =>
    `Manos y pies juntos: incluso al tempo de ejecución, ${beat} = ${tempo}, cada pie tiene un segundo entre sus cambios.`,
  restBetween: 'Entre dos ejercicios, descansar manos y pies; parar enseguida si algo duele.',
  ladder: (beat, tempi) =>
    tempi.length === 1
      ? `Tres veces sin fallos a ${beat} = ${tempi[0]}.`
      : `De peldaño en peldaño, tres veces sin fallos en cada uno: ${beat} = ${tempi.join(', ')}.`,
  findings: 'Observaciones',
  notes: 'Apuntes',
  seconds: (seconds) => `${withComma(seconds, 1)} s`,
  withNote: 'con la nota',
  partOfBeat: (beat, part, parts) => `${beat}, ${part}.ª de ${parts}`,
  hardlyAny: 'menos de 0,1 s',
  rate: (perMinute) => withComma(perMinute, 1),
  whyAfter: (note, bar) => `después de ${note} en el compás ${bar}`,
  whyAfterChange: (bar) => `después del cambio del compás ${bar}`,
  whyAsRepeatLeaves: 'al principio la posición es la que deja la repetición',
  whyFromStart: 'en cualquier momento desde el comienzo',
  whyBefore: (note, bar, beat) => `antes de ${note} en el compás ${bar}, tiempo ${beat}`,
  whyAfterJump: 'la próxima nota que lo necesita viene tras un salto',
  whyRestores: 'vuelve a su sitio para la repetición',
  whyForRepeated: 'para que lo repetido empiece igual cada vez',
  whyInPause: 'entre dos movimientos',
  whyBeforeGrace: 'antes de la nota de adorno',
  whyAgainst: (drawbacks) => `En contra: ${drawbacks.join('; ')}`,
};
