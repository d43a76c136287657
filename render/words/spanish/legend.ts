import type { Words } from '../worded.ts';

export const LEGEND_WORDS: Words['legend'] = {
  pedalTitle: 'Cómo se leen las indicaciones de los pedales',
  leverTitle: 'Cómo se leen las indicaciones de las palancas',
  setting: {
    diagram: (left, right) =>
      `Todos los pedales en su orden, pie izquierdo ${left}, pie derecho ${right}: sobre la línea bemol, en ella becuadro, debajo sostenido.`,
    letters: (left, right) => `Todos los pedales: pie izquierdo ${left}, pie derecho ${right}.`,
  },
  moved: 'Rodeado: cambia aquí.',
  changed: 'Rodeado: está en otro sitio que en la última posición completa, o cambia aquí.',
  change: {
    foot: 'Un cambio acaba antes de la nota que lo necesita, donde se mueve el pie.',
    note: 'Un cambio está en la nota que lo necesita: el pie se mueve antes de esa nota.',
  },
  rows: 'De dos filas, la de arriba es para el pie derecho.',
  cannotWait: 'Con «pie aquí», el pie cambia en ese punto y no espera a la nota: allí no tendría tiempo.',
  withNote:
    'Con la cuña: cambie exactamente con la nota, porque hasta entonces suena una cuerda de este pedal.',
  firstTime:
    'la posición vale solo la primera vez; cuando la música vuelve aquí, otros pedales han cambiado.',
  onReturn: 'cambie solo cuando la música vuelve aquí; antes el pedal ya está así.',
  leverFirstTime:
    'la tabla vale solo la primera vez; cuando la música vuelve aquí, otras palancas han cambiado.',
  leverOnReturn: 'cambie solo cuando la música vuelve aquí; antes la palanca ya está así.',
  leverAtOneTime: 'cambie solo esa vez; las demás veces deje la palanca como está.',
  unplayable: 'Un lugar que no se puede tocar como está escrito; la lista dice por qué.',
  footnotes: 'Notas del texto',
  timeToTurn: 'hay tiempo',
};
