import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count } from './phrases.ts';

export const LEVERS_WORDS: Words['levers'] = {
  harp: (strings) => `Arpa de palancas, ${strings} cuerdas`,
  start: {
    tuning: (key) => `Afinación: ${key}.`,
    allDown: 'Todas las palancas bajadas.',
    up: (names) => `Palancas subidas: ${names.join(', ')}.`,
    down: (names) => `Palancas bajadas: ${names.join(', ')}.`,
    allOf: (name) => `todos los ${name}`,
  },
  onMusic: {
    tuning: 'Afinación',
    up: 'Palancas subidas',
    allDown: 'Todas las palancas bajadas',
    all: 'todos los',
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
  upForRepeat: (string) =>
    `La palanca de ${string} está subida antes del comienzo a causa de la repetición, que la deja así: ninguna nota la necesita antes de que se baje.`,
  retuned: (semitones) =>
    `${count(Math.abs(semitones), 'semitono', 'semitonos')} ${semitones > 0 ? 'más alto' : 'más bajo'}`,
  all: 'todas',
  octaves: (octaves) => `${octaves.length === 1 ? 'octava' : 'octavas'} ${octaves.join(', ')}`,
  changes: 'Cambios de palanca',
  noChanges: 'Ninguna palanca cambia en esta parte: no hay cambios que practicar.',
  changeCount: (changes, perMinute) =>
    `${count(changes, 'cambio de palanca', 'cambios de palanca')}, ${withComma(perMinute, 1)} por minuto mientras toca el arpa.`,
  noBusyBars: 'Ningún compás tiene más de un cambio de palanca.',
  busyBar: (bar, changes, names) => `Compás ${bar}: ${changes} cambios (${names})`,
  passageChanges: 'Cambios',
  line: 'Las palancas solas',
  lineLegend:
    'Las palancas sin las cuerdas: cuente en voz alta; la mano indicada pone la palanca en su tiempo y vuelve. El nombre es la nota que la cuerda da desde ahí. Una fracción es la parte del tiempo ya pasada (sin fracción: entre los tiempos); un número sobre una línea gruesa, otros tantos compases sin palancas. Deje descansar las manos antes de volver a empezar.',
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
    'La antelación es el tiempo desde el cambio de palanca hasta la primera nota que lo necesita, al tempo de ejecución y leyendo sin saltos.',
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
  atSpot: (levers) => `Al empezar: ${levers}`,
  spotsLegend:
    'Los pasajes que no son fáciles, primero los que no se pueden tocar y luego el más difícil: según el nivel y luego según el mayor número de cambios en diez segundos. Estúdielos del último al primero y deje descansar las manos entre dos ejercicios. Los compases pálidos no forman parte de ellos.',
  restBetween: 'Entre dos ejercicios, descansar las manos; parar enseguida si algo duele.',
  leversAlone:
    'Las palancas solas, como arriba, contando en voz alta, sin las cuerdas; cada mano vuelve a su lugar sobre las cuerdas.',
  aroundEach:
    'Solo lo que rodea cada cambio, tan despacio como quiera: la última nota antes, el cambio y la primera nota después, hasta que las manos encuentren todo sin mirar.',
  handsAlone:
    'Las notas solas, con las palancas como al comienzo del pasaje: algunas notas suenan de otro modo.',
  slowly: (beat, tempo) =>
    `Notas y palancas juntas, despacio: a ${beat} = ${tempo} cada mano tiene al menos un segundo entre sus palancas.`,
  inTempo: (beat, tempo) =>
    `Notas y palancas juntas: incluso al tempo de ejecución, ${beat} = ${tempo}, cada mano tiene un segundo entre sus palancas.`,
};
