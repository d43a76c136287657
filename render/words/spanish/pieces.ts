import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { list } from './phrases.ts';

const WAYS = { up: 'Subir', down: 'Bajar' } as const;

export const PIECES_WORDS: Pick<Words, 'card' | 'tuning' | 'set'> = {
  card: {
    moves: 'Cambios de pedal',
    changes: 'Cambios de palanca',
    none: 'ninguno',
    perMinute: (count, perMinute) =>
      `${count} en la partitura; de media ${withComma(perMinute, 1)} por minuto con todas las repeticiones`,
    lasts: (length, bars) =>
      `${length} con todas las repeticiones y los silencios, ${bars} ${bars === 1 ? 'compás' : 'compases'}`,
    tempo: {
      assumed: (tempo) => `no hay indicación de tempo al principio; se supone ${tempo}`,
      sound: (tempo) =>
        `no hay indicación metronómica al principio; ${tempo} es el tempo de reproducción del archivo`,
    },
    tune: 'Por afinar',
    tuning: 'Afinación',
  },
  tuning: {
    onMusic: {
      withoutPedal: 'Para afinar antes de tocar, sin pedal:',
      byCents: 'Para afinar antes de tocar:',
      to: (string) => `${string} en`,
    },
    withoutDisc: (from, to) => `${from} se afina en ${to}: esta cuerda no tiene disco.`,
    retunedLetter: (from, to, way) => `${WAYS[way]} todas las cuerdas de ${from} a ${to}.`,
    retunedStrings: (from, octaves, to, way) =>
      octaves.length === 1
        ? `${WAYS[way]} la cuerda de ${from} de la octava ${octaves[0]} a ${to}.`
        : `${WAYS[way]} las cuerdas de ${from} de las octavas ${list(octaves)} a ${to}.`,
    retuned: (string, cents) => `${string} ${Math.abs(cents)} cents ${cents > 0 ? 'más alto' : 'más bajo'}`,
    nothing: 'Nada más que la afinación habitual.',
    caution:
      'Si una cuerda soporta una altura superior a la habitual lo dice un técnico de arpas: pregunte antes.',
  },
  set: {
    title: 'Cuaderno de clase',
    contents: 'Índice',
    difficulty: 'Dificultad',
    difficultyLegend: (ownScale) =>
      `Primero la más fácil. Cambios y minuto se cuentan como está impreso, cada compás una vez, el minuto solo mientras toca el arpa; la duración incluye todas las repeticiones. ${ownScale}`,
    heads: {
      page: 'Página',
      grade: 'Dificultad',
      changes: 'Cambios',
      perMinute: 'Por minuto',
      length: 'Duración',
      piece: 'Pieza',
    },
    unplayable: (title) => `${title} (no se puede tocar como está escrito)`,
    settings: 'De una pieza a otra',
    settingsLegend:
      'Qué necesita cada pieza antes de empezar, y qué de ello se cambia después de la anterior. Las cuerdas que una pieza no toca se quedan como están.',
    toSet: (names) => `Para cambiar después de la pieza anterior: ${names}.`,
    setAhead: (names) => `Para ajustar ya ahora, por piezas posteriores: ${names}.`,
    nothingToSet: 'Nada que cambiar después de la pieza anterior.',
    retune: 'Por reafinar, con las palancas de estas cuerdas bajadas',
    otherHarp: 'En otra arpa que la pieza anterior.',
    refused: 'No están en este cuaderno',
    refusals: {
      unreadable: 'El archivo no se puede leer como partitura.',
      unsupported: 'Contiene algo que no se admite.',
      noHarp: 'Ninguna parte lleva el nombre del arpa; elija la parte.',
      noMusic: 'La parte no tiene notas.',
      noSuchTune: 'Esta melodía no está en el libro.',
      tooLarge: 'La pieza es demasiado grande.',
      tooSlow: 'El proceso duró demasiado.',
      notDrawn: 'No se pudo dibujar la pieza.',
    },
  },
};
