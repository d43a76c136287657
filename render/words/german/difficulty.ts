import {
  capitalize,
  closestChanges,
  type FailingBars,
  frequencyOf,
  type Measures,
} from '../../../engine/index.ts';
import { withComma } from '../decimal-comma.ts';
import type { Words } from '../worded.ts';
import { inBars } from './phrases.ts';

const failingWords = ({ feet, hands, strings }: FailingBars): string =>
  [
    ...(feet > 0 ? [`die Füße haben ${inBars(feet)} keine Zeit`] : []),
    ...(hands > 0 ? [`${inBars(hands)} ist keine Hand für eine Klappe frei`] : []),
    ...(strings > 0 ? [`die Saiten können ${inBars(strings)} die Töne nicht geben`] : []),
  ].join(', ');

const handsWords = ({ barsOverloaded: { left, right } }: Measures): string =>
  [
    ...(left > 0 ? [`die linke Hand hat ${inBars(left)} zu viel`] : []),
    ...(right > 0 ? [`die rechte Hand hat ${inBars(right)} zu viel`] : []),
  ].join(', ');

const GRADES = {
  easy: 'leicht',
  moderate: 'mittel',
  hard: 'schwer',
  'very-hard': 'sehr schwer',
} as const;

export const DIFFICULTY_WORDS: Pick<Words, 'drawbacks' | 'difficulty'> = {
  drawbacks: {
    move: 'jeder Wechsel zählt ein wenig',
    respelling: 'eine Note wird dafür umgedeutet',
    footTooBusy: 'der Fuß hat keine Zeit dafür',
    pedalsTogether: 'ein Fuß bewegt zwei Pedale zugleich',
    forbidden: 'hier sind keine Wechsel erlaubt',
    stringSounding: 'eine Saite dieses Pedals klingt noch',
    justPlucked: 'eine Saite dieses Pedals ist eben erst gezupft',
    stringRinging: 'eine Saite dieses Pedals klingt vielleicht nach',
    noLead: 'er fällt mit der Note zusammen, die ihn braucht',
    shortLead: 'wenig Zeit vor der Note, die ihn braucht',
    offBeat: 'er liegt zwischen den Zählzeiten',
    betweenBeats: 'hier ist weder Zählzeit noch Note noch Pause',
    betweenTupletNotes: 'er liegt zwischen den Noten einer unregelmäßigen Teilung',
    betweenBeatsOfRest: 'in der Pause liegt er zwischen den Zählzeiten',
    handsBusy: 'die Hände spielen',
    handsHolding: 'Töne werden gehalten',
    perNotePlucked: 'in diesem Augenblick werden Töne gezupft',
    insideRun: 'er liegt mitten in einem Lauf',
    closeMoves: 'derselbe Fuß hat kurz vorher gewechselt',
    perSecondAhead: 'er kommt lange vor seiner Note',
    perSecondForgotten: 'bis zur Note kann das Zeichen vergessen sein',
    missedRest: 'die Pause vorher wäre der Ort dafür gewesen',
    startsElsewhere: 'am Anfang steht das Pedal anders',
    restoring: 'er wird nur gebraucht, wenn die Musik hierher zurückkehrt',
    twoNotchesInHaste: 'zwei Stufen in wenig Zeit',
  },
  difficulty: {
    grades: GRADES,
    notEverywhere: (grade) => `${grade}, aber nicht überall`,
    reasons: {
      mostInTenSeconds: ({ mostInTenSeconds: most }, harp) =>
        `Bis zu ${most} ${harp === 'pedal' ? 'Pedalwechsel' : 'Klappenwechsel'} in zehn Sekunden.`,
      shortestSpacing: (measures, harp) => {
        const { side, seconds } = closestChanges(measures);
        const who = `${harp === 'pedal' ? 'Der' : 'Die'} ${side === 'left' ? 'linke' : 'rechte'} ${harp === 'pedal' ? 'Fuß' : 'Hand'}`;
        return seconds === null
          ? `${who} muss zugleich zwei ${harp === 'pedal' ? 'Pedale bewegen' : 'Klappen stellen'}.`
          : `${who} hat nur ${withComma(seconds, 2)} s zwischen zwei ${harp === 'pedal' ? 'Pedalwechseln' : 'Klappen'}.`;
      },
      atThePluck: ({ atThePluck }) =>
        `${Math.round(atThePluck * 100)} % der Wechsel fallen mit der Note zusammen, die sie braucht.`,
      stringsBent: ({ stringsBent }) =>
        stringsBent === 1
          ? 'Ein Wechsel verbiegt einen Ton, der noch klingt.'
          : `${stringsBent} Wechsel verbiegen einen Ton, der noch klingt.`,
      barsOverloaded: (measures) => `${capitalize(handsWords(measures))}.`,
      feetTogether: ({ feetTogether }) => `${feetTogether}-mal bewegen sich zwei Pedale zugleich.`,
      notesPerSecond: ({ notesPerSecond }) =>
        `Die Hände spielen ${notesPerSecond.toFixed(0)} Töne in der Sekunde.`,
    },
    easy: (measures, harp) => {
      const told =
        harp === 'pedal'
          ? {
              never: 'Kein Pedal wechselt, solange die Harfe spielt',
              seldom: 'Die Pedale wechseln selten',
              inTime: 'Für jeden Pedalwechsel ist Zeit',
            }
          : {
              never: 'Keine Klappe wechselt, solange die Harfe spielt',
              seldom: 'Die Klappen wechseln selten',
              inTime: 'Für jeden Klappenwechsel ist Zeit',
            };
      return `${told[frequencyOf(measures)]}, und die Hände haben Zeit.`;
    },
    unplayable: (failing) => `Nicht spielbar, wie es gedruckt ist: ${failingWords(failing)}.`,
    share: (passages, of, grade) =>
      of === 1
        ? `Die Stimme ist ${GRADES[grade]}.`
        : `${passages} von ${of} Abschnitten ${passages === 1 ? 'ist' : 'sind'} ${GRADES[grade]}.`,
    verdict: (failing, measures, harp) => {
      const hands = handsWords(measures);
      if (failing.first !== null) {
        const where = failing.first === '' ? '' : `: das erste Hindernis steht in Takt ${failing.first}`;
        return [`nicht spielbar, wie es gedruckt ist${where}`, failingWords(failing), hands]
          .filter((each) => each !== '')
          .join('; ');
      }
      const whole = harp === 'pedal' ? 'spielbar für Hände und Füße' : 'spielbar, wie es gedruckt ist';
      const part = harp === 'pedal' ? 'spielbar für die Füße' : 'die Klappen sind spielbar';
      return hands === '' ? whole : `${part}; ${hands}`;
    },
  },
};
