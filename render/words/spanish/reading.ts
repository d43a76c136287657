import type { Words } from '../worded.ts';

export const READING_WORDS: Words['reading'] = {
  title: 'Cómo se leen las indicaciones',
  titleOf: {
    pedal: 'Cómo se leen las indicaciones de pedales',
    lever: 'Cómo se leen las indicaciones de palancas',
  },
  onThePages: 'En las páginas de música',
  setting: 'Un diagrama muestra cómo están todos los pedales desde ese punto.',
  change: {
    foot: 'Un nombre de nota con su signo es un cambio: allí el pie mueve este pedal, antes de la nota que lo necesita.',
    note: 'Un nombre de nota con su signo es un cambio: el pedal debe estar así cuando llega esta nota.',
  },
  feet: 'Donde cambian los dos pies, el derecho está arriba y el izquierdo abajo.',
  ring: 'Un pedal rodeado está en otro sitio que en el último diagrama, o cambia aquí.',
  wedge: 'Una cuña antes del cambio quiere decir: exactamente con la nota.',
  strings: 'Tras «=» está la cuerda en que se toca una nota escrita de otro modo.',
  counts:
    'Las cifras grises sobre la música son los tiempos que se cuentan; los números de compás son negros y en cursiva.',
  movements:
    'Un número romano delante del número de compás indica el movimiento: II 12 es el compás 12 del segundo.',
  numbers:
    'Un número blanco sobre negro señala un lugar que no se puede tocar como está escrito; tras la música el mismo número dice por qué.',
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
  leverHands: 'Debajo del nombre está la mano que lo hace: m.i. es la izquierda, m.d. la derecha.',
};
