import type { Words } from '../worded.ts';

export const HANDOUTS_WORDS: Words['handouts'] = {
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
    `Las cuerdas están afinadas en ${tuning} con todas las palancas bajadas. «Sube» es una palanca que se sube; una nota en negrita es la nota en que se afinan las cuerdas de su columna antes de la pieza, en todas las octavas.`,
  leverTables: {
    major: 'Mayor y menor natural',
    'harmonic minor': 'Menor armónico',
    'melodic minor': 'Menor melódico ascendente',
  },
  key: 'Tonalidad',
  up: 'sube',
  glissandi: 'Acordes y escalas para glissandos',
  glissandiPlayedAs: 'Tras = está la nota con la que la posición da la fundamental.',
  glissandiLegend:
    'Con estas posiciones cada cuerda da una nota del acorde o de la escala, y ninguna otra. De varias posiciones se muestra la que tiene menos cuerdas dobles. Línea superior de los nombres: pie derecho; línea inferior: pie izquierdo.',
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
  setFor: { key: (key) => `en ${key}`, opening: 'como al comienzo de esta pieza' },
  twoFeetLegend: (how) =>
    `Visto desde el asiento de quien toca, aquí ${how}. Un pie mueve un pedal cada vez, mejor mientras las cuerdas de ese nombre callan: la que suena zumba o se desliza.`,
  diagram: 'Cómo se lee un esquema',
  diagramLegend: (setting) =>
    `La misma posición como se imprime: un trazo para cada pedal en su orden, la línea vertical separa el pie izquierdo del derecho. Sobre la línea es bemol, en ella becuadro, debajo sostenido: ${setting}.`,
  fixed: 'Cuerdas sin discos',
  fixedHeads: { strings: 'Cuerdas', range: 'Extensión', fixed: 'Sin discos', harp: 'Arpa' },
  fixedLegend:
    'Ningún pedal mueve estas cuerdas. Se afinan a mano antes de la pieza según lo que pide, y conservan esa nota. No suba ninguna cuerda por encima de su altura habitual sin el consejo de un técnico de arpas.',
  noFixed: 'ninguna',
  pedalHarp: (strings) => `Arpa de pedales, ${strings} cuerdas`,
};
