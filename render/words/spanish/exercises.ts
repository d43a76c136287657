import { uncapitalize } from '../../../engine/index.ts';
import type { Words } from '../worded.ts';

export const EXERCISES_WORDS: Pick<Words, 'exercise' | 'marked'> = {
  exercise: {
    title: 'Ejercicio',
    solution: 'Solución',
    task: {
      pedal: {
        boxes:
          'Escribe las indicaciones en las casillas: en una ancha cómo están allí todos los pedales, en una pequeña el pedal que cambia allí. La solución está en las últimas páginas.',
        none: 'Escribe cómo están los pedales antes de la primera nota, y cada cambio donde el pie se mueve. La solución está en las últimas páginas.',
      },
      lever: {
        boxes:
          'Escribe las indicaciones en las casillas: en una grande qué palancas están subidas allí, en una pequeña la palanca que cambia allí. La solución está en las últimas páginas.',
        none: 'Escribe qué palancas están subidas antes de la primera nota, y cada cambio donde una mano está libre. La solución está en las últimas páginas.',
      },
    },
    taskAtStart: {
      pedal:
        'Escribe en cada casilla cómo están todos los pedales: después de la primera nota no cambia ninguno. La solución está en las últimas páginas.',
      lever:
        'Escribe en cada casilla qué palancas están subidas: después de la primera nota no cambia ninguna. La solución está en las últimas páginas.',
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
    meanings: {
      right: 'Bien: las notas suenan como están escritas.',
      'better-place': 'Bien, pero hay un lugar mejor, indicado abajo con su número.',
      wrong: 'Mal: una nota suena distinta, o falta tiempo; en azul está lo que corresponde.',
      missing: 'Falta: en azul está lo que corresponde.',
      needless:
        'Innecesario: todo suena igual sin él, por la razón indicada abajo con su número; no quita puntos.',
    },
    faults: 'Compás por compás',
    opening: 'posición al comienzo',
    comment: (place, what, verdict) => `${place}, ${what}: ${verdict}.`,
    sounds: (place, note, instead) => `${place}: en lugar de ${note} suena ${instead}.`,
    more: (notes, until) =>
      `Lo mismo pasa con ${notes === 1 ? 'una nota más' : `${notes} notas más`} ${until === null ? 'en ese compás' : `hasta el compás ${until}`}.`,
    unstated: (place, note) => `${place}: nada dice cómo está el pedal de ${note}.`,
    write: (names) => `Escribir ${names}.`,
    sameSound: (written, letter, note) => `${written} es para las cuerdas de ${letter}; la nota es ${note}.`,
    move: (place) => `Su lugar es este: ${place}.`,
    contradicts: (names) => `Otra indicación dice aquí ${names}.`,
    strike: 'Tacharlo.',
    tooQuick: 'Allí el pie no tiene tiempo.',
    better: (place, why) => `Mejor aquí: ${place}. ${why}`,
    why: {
      bends: 'Donde está el cambio, una cuerda de este pedal suena todavía.',
      late: 'Viene justo antes de su nota, aunque el pie está libre antes.',
      early: 'Viene tanto antes de su nota que hay que recordarlo.',
    },
    needless: {
      stands: (since) =>
        `El pedal ${since === null ? 'ya está así' : `está así desde el ${uncapitalize(since)}`}.`,
      unasked: (before) =>
        `Ninguna nota lo pide${before === null ? '' : ` antes del próximo cambio, ${uncapitalize(before)}`}.`,
      twice: 'Ya está escrito aquí.',
      undoes: 'Solo deshace otro cambio que allí sobra.',
    },
    allRight: 'Cada nota encuentra su pedal, y cada cambio está en buen lugar.',
    unread: (place, text) => `${place}: no se pudo leer «${text}» como indicación.`,
    lever: {
      opening: 'palancas al comienzo',
      tooQuick: 'Allí no hay ninguna mano libre.',
      why: {
        bends: 'Donde está el cambio, la cuerda suena todavía.',
        late: 'Llega justo antes de su nota, aunque antes hay una mano libre.',
        busy: 'Donde está el cambio, tocan las dos manos.',
      },
      stands: (since) =>
        `La palanca ${since === null ? 'ya está así' : `está así desde el ${uncapitalize(since)}`}.`,
      allRight: 'Cada nota encuentra su palanca, y cada cambio está en buen lugar.',
    },
  },
};
