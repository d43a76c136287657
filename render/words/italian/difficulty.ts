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
    ...(feet > 0 ? [`i piedi non hanno tempo ${inBars(feet)}`] : []),
    ...(hands > 0 ? [`nessuna mano è libera per una levetta ${inBars(hands)}`] : []),
    ...(strings > 0 ? [`le corde non possono dare le note ${inBars(strings)}`] : []),
  ].join(', ');

const handsWords = ({ barsOverloaded: { left, right } }: Measures): string =>
  [
    ...(left > 0 ? [`la mano sinistra ha troppo da fare ${inBars(left)}`] : []),
    ...(right > 0 ? [`la mano destra ha troppo da fare ${inBars(right)}`] : []),
  ].join(', ');

const GRADES = {
  easy: 'facile',
  moderate: 'media',
  hard: 'difficile',
  'very-hard': 'molto difficile',
} as const;

/** Of a grade, which has another gender than difficulty. */
const OF_GRADE = { ...GRADES, moderate: 'medio' } as const;

export const DIFFICULTY_WORDS: Pick<Words, 'drawbacks' | 'difficulty'> = {
  drawbacks: {
    move: 'ogni cambio conta un poco',
    respelling: 'una nota è sostituita dalla sua enarmonica',
    footTooBusy: 'il piede non ne ha il tempo',
    pedalsTogether: 'un piede muove due pedali insieme',
    forbidden: 'qui non sono permessi cambi',
    stringSounding: 'una corda di questo pedale suona ancora',
    justPlucked: 'una corda di questo pedale è stata appena pizzicata',
    stringRinging: 'una corda di questo pedale forse vibra ancora',
    noLead: 'cade insieme alla nota che ne ha bisogno',
    shortLead: 'poco tempo prima della nota che ne ha bisogno',
    offBeat: 'cade tra i tempi',
    betweenBeats: 'qui non c’è né un tempo, né una nota, né una pausa',
    betweenTupletNotes: 'cade tra le note di un gruppo irregolare',
    betweenBeatsOfRest: 'nella pausa cade tra i tempi',
    handsBusy: 'le mani suonano',
    handsHolding: 'alcune note sono tenute',
    perNotePlucked: 'in questo momento si suonano note',
    insideRun: 'cade dentro una volata',
    closeMoves: 'lo stesso piede si è mosso poco prima',
    perSecondAhead: 'viene molto prima della sua nota',
    perSecondForgotten: 'l’indicazione può essere dimenticata prima della nota',
    missedRest: 'la pausa precedente era il posto giusto',
    startsElsewhere: 'all’inizio il pedale sta altrove',
    restoring: 'serve solo quando la musica ritorna qui',
    twoNotchesInHaste: 'due tacche in poco tempo',
  },
  difficulty: {
    grades: GRADES,
    notEverywhere: (grade) => `${grade}, ma non ovunque`,
    reasons: {
      mostInTenSeconds: ({ mostInTenSeconds: most }, harp) =>
        `Fino a ${harp === 'pedal' ? count(most, 'cambio di pedale', 'cambi di pedale') : count(most, 'cambio di levetta', 'cambi di levetta')} in dieci secondi.`,
      shortestSpacing: (measures, harp) => {
        const { side, seconds } = closestChanges(measures);
        const who =
          harp === 'pedal'
            ? `Il piede ${side === 'left' ? 'sinistro' : 'destro'}`
            : `La mano ${side === 'left' ? 'sinistra' : 'destra'}`;
        return seconds === null
          ? `${who} deve ${harp === 'pedal' ? 'muovere due pedali' : 'mettere due levette'} insieme.`
          : `${who} ha solo ${withComma(seconds, 2)} s tra due ${harp === 'pedal' ? 'cambi' : 'levette'}.`;
      },
      atThePluck: ({ atThePluck }) =>
        `Il ${Math.round(atThePluck * 100)} % dei cambi cade insieme alla nota che ne ha bisogno.`,
      stringsBent: ({ stringsBent }) =>
        stringsBent === 1
          ? 'Un cambio altera una corda che suona ancora.'
          : `${stringsBent} cambi alterano una corda che suona ancora.`,
      barsOverloaded: (measures) => `${capitalize(handsWords(measures))}.`,
      feetTogether: ({ feetTogether }) =>
        `Due pedali si muovono insieme ${count(feetTogether, 'volta', 'volte')}.`,
      notesPerSecond: ({ notesPerSecond }) =>
        `Le mani suonano ${count(Math.round(notesPerSecond), 'nota', 'note')} al secondo.`,
    },
    easy: (measures, harp) => {
      const told =
        harp === 'pedal'
          ? {
              never: 'Nessun pedale cambia mentre l’arpa suona',
              seldom: 'I pedali cambiano di rado',
              inTime: 'C’è tempo per ogni cambio di pedale',
            }
          : {
              never: 'Nessuna levetta cambia mentre l’arpa suona',
              seldom: 'Le levette cambiano di rado',
              inTime: 'C’è tempo per ogni cambio di levetta',
            };
      return `${told[frequencyOf(measures)]}, e le mani hanno tempo.`;
    },
    unplayable: (failing) => `Non eseguibile come è stampato: ${failingWords(failing)}.`,
    share: (passages, of, grade) =>
      of === 1
        ? `Grado della parte: ${OF_GRADE[grade]}.`
        : `Passaggi di livello ${OF_GRADE[grade]}: ${passages} su ${of}.`,
    verdict: (failing, measures, harp) => {
      const hands = handsWords(measures);
      if (failing.first !== null) {
        const where = failing.first === '' ? '' : `: il primo ostacolo è a battuta ${failing.first}`;
        return [`non eseguibile come è stampato${where}`, failingWords(failing), hands]
          .filter((each) => each !== '')
          .join('; ');
      }
      const whole = harp === 'pedal' ? 'eseguibile per mani e piedi' : 'eseguibile come è stampato';
      const part = harp === 'pedal' ? 'eseguibile per i piedi' : 'le levette sono eseguibili';
      return hands === '' ? whole : `${part}; ${hands}`;
    },
  },
};
