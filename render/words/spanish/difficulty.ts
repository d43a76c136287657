import {
  capitalize,
  closestChanges,
  type FailingBars,
  frequencyOf,
  type Measures,
} from '../../../engine/index.ts';
import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { count, inBars } from './phrases.ts';

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
  moderate: 'media',
  hard: 'difícil',
  'very-hard': 'muy difícil',
} as const;

/** Of a grade, which has another gender than difficulty. */
const OF_GRADE = { ...GRADES, moderate: 'medio' } as const;

export const DIFFICULTY_WORDS: Pick<Words, 'drawbacks' | 'difficulty'> = {
  drawbacks: {
    move: 'cada cambio cuenta un poco',
    respelling: 'una nota se sustituye por su enarmónica',
    footTooBusy: 'el pie no tiene tiempo',
    pedalsTogether: 'un pie mueve dos pedales a la vez',
    forbidden: 'aquí no se permiten cambios',
    stringSounding: 'una cuerda de este pedal suena todavía',
    justPlucked: 'una cuerda de este pedal acaba de pulsarse',
    stringRinging: 'una cuerda de este pedal quizá vibra todavía',
    noLead: 'cae junto con la nota que lo necesita',
    shortLead: 'poco tiempo antes de la nota que lo necesita',
    offBeat: 'cae entre los tiempos',
    betweenBeats: 'aquí no hay ni tiempo, ni nota, ni silencio',
    betweenTupletNotes: 'cae entre las notas de un grupo irregular',
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
    notEverywhere: (grade) => `${grade}, pero no en todas partes`,
    reasons: {
      mostInTenSeconds: ({ mostInTenSeconds: most }, harp) =>
        `Hasta ${harp === 'pedal' ? count(most, 'cambio de pedal', 'cambios de pedal') : count(most, 'cambio de palanca', 'cambios de palanca')} en diez segundos.`,
      shortestSpacing: (measures, harp) => {
        const { side, seconds } = closestChanges(measures);
        const who =
          harp === 'pedal'
            ? `El pie ${side === 'left' ? 'izquierdo' : 'derecho'}`
            : `La mano ${side === 'left' ? 'izquierda' : 'derecha'}`;
        return seconds === null
          ? `${who} debe ${harp === 'pedal' ? 'mover dos pedales' : 'poner dos palancas'} a la vez.`
          : `${who} tiene solo ${withComma(seconds, 2)} s entre dos ${harp === 'pedal' ? 'cambios' : 'palancas'}.`;
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
    easy: (measures, harp) => {
      const told =
        harp === 'pedal'
          ? {
              never: 'Ningún pedal cambia mientras toca el arpa',
              seldom: 'Los pedales cambian pocas veces',
              inTime: 'Hay tiempo para cada cambio de pedal',
            }
          : {
              never: 'Ninguna palanca cambia mientras toca el arpa',
              seldom: 'Las palancas cambian pocas veces',
              inTime: 'Hay tiempo para cada cambio de palanca',
            };
      return `${told[frequencyOf(measures)]}, y las manos tienen tiempo.`;
    },
    unplayable: (failing) => `No se puede tocar como está impreso: ${failingWords(failing)}.`,
    share: (passages, of, grade) =>
      of === 1
        ? `Grado de la parte: ${OF_GRADE[grade]}.`
        : `Pasajes de nivel ${OF_GRADE[grade]}: ${passages} de ${of}.`,
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
};
