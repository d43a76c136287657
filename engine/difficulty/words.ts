import type { HarpKind } from '../harp/harps.ts';
import { SIDES, type Side } from '../harp/side.ts';
import { nameBars } from '../words/bars.ts';
import { capitalize, nameCount } from '../words/counts.ts';
import { isNoTime } from '../words/seconds.ts';
import type { Cause, FailingBars, Grade, GradedMeasure, Measures } from './model.ts';
import { SELDOM_PER_MINUTE } from './thresholds.ts';

/** The grades in words. */
export const GRADE_WORDS: Readonly<Record<Grade, string>> = {
  easy: 'easy',
  moderate: 'moderate',
  hard: 'hard',
  'very-hard': 'very hard',
};

/**
 * Which foot, or hand at the levers, has the least time between two changes, where any has two, and how much; null where
 * it has none.
 */
export const closestChanges = ({
  shortestSpacing: { left, right },
}: Measures): { readonly side: Side; readonly seconds: number | null } => {
  const [side, seconds]: [Side, number] =
    right === null || (left !== null && left <= right) ? ['left', left!] : ['right', right];
  return { side, seconds: isNoTime(seconds, 2) ? null : seconds };
};

/** Which measure makes a passage as hard as it is, as a sentence. */
export const REASONS: Readonly<Record<GradedMeasure, (measures: Measures, harp: HarpKind) => string>> = {
  mostInTenSeconds: ({ mostInTenSeconds }, harp) =>
    `Up to ${nameCount(mostInTenSeconds, harp === 'pedal' ? 'pedal move' : 'lever change')} in ten seconds.`,
  shortestSpacing: (measures, harp) => {
    const { side, seconds } = closestChanges(measures);
    const who = `The ${side} ${harp === 'pedal' ? 'foot' : 'hand'}`;
    return seconds === null
      ? `${who} has to ${harp === 'pedal' ? 'move two pedals' : 'set two levers'} at the same moment.`
      : `${who} has only ${seconds.toFixed(2)} s between two ${harp === 'pedal' ? 'moves' : 'levers'}.`;
  },
  atThePluck: ({ atThePluck }, harp) =>
    `${Math.round(atThePluck * 100)} % of the ${harp === 'pedal' ? 'moves' : 'changes'} fall together with the note that needs them.`,
  stringsBent: ({ stringsBent }, harp) =>
    `${nameCount(stringsBent, harp === 'pedal' ? 'move' : 'change')} ${stringsBent === 1 ? 'bends' : 'bend'} a string that is still sounding.`,
  barsOverloaded: (measures) => `${capitalize(describeHands(measures))}.`,
  feetTogether: ({ feetTogether }) => `Two pedals move together ${times(feetTogether)}.`,
  notesPerSecond: ({ notesPerSecond }) => `The hands play ${notesPerSecond.toFixed(0)} notes a second.`,
};

const times = (number: number): string =>
  number === 1 ? 'once' : number === 2 ? 'twice' : `${number} times`;

const describeHands = ({ barsOverloaded }: Measures): string =>
  SIDES.filter((side) => barsOverloaded[side] > 0)
    .map((side) => `the ${side} hand has too much in ${nameCount(barsOverloaded[side], 'bar')}`)
    .join(', ');

/** How often pedals or levers change where that is easy: not at all, seldom, or often but each in its time. */
export const frequencyOf = ({ changes, changesPerMinute }: Measures): 'never' | 'seldom' | 'inTime' =>
  changes === 0 ? 'never' : changesPerMinute < SELDOM_PER_MINUTE ? 'seldom' : 'inTime';

/** Why a passage is easy. */
export const describeEasy = (measures: Measures, harp: HarpKind): string => {
  const what = harp === 'pedal' ? 'pedal' : 'lever';
  const told = {
    never: `No ${what} moves while the harp plays`,
    seldom: `The ${what}s move seldom`,
    inTime: `There is time for each ${harp === 'pedal' ? 'pedal move' : 'lever change'}`,
  } as const;
  return `${told[frequencyOf(measures)]}, and the hands have time.`;
};

/** How many of the passages have a grade. */
export const describeShare = (passages: number, of: number, grade: Grade): string =>
  of === 1
    ? `The part is ${GRADE_WORDS[grade]}.`
    : `${passages} of ${of} passages ${passages === 1 ? 'is' : 'are'} ${GRADE_WORDS[grade]}.`;

const describeFailing = ({ feet, hands, strings }: FailingBars): readonly string[] => [
  ...(feet > 0 ? [`the feet have no time in ${nameCount(feet, 'bar')}`] : []),
  ...(hands > 0 ? [`no hand is free for a lever in ${nameCount(hands, 'bar')}`] : []),
  ...(strings > 0 ? [`the strings cannot give the notes in ${nameCount(strings, 'bar')}`] : []),
];

/** Why a passage cannot be played. */
export const describeUnplayable = (failing: FailingBars): string =>
  `Not playable as printed: ${describeFailing(failing).join(', ')}.`;

/** A part of a verdict, with the severity of the findings that it sums up; none where nothing is wrong. */
export interface VerdictClause {
  readonly severity: 'stop' | 'warn' | null;
  readonly words: string;
}

/** Whether hands and feet can play a part as printed, clause by clause. */
export const listVerdict = (
  failing: FailingBars,
  measures: Measures,
  harp: HarpKind,
): readonly VerdictClause[] => {
  const hands = describeHands(measures);
  const ofHands: readonly VerdictClause[] = hands === '' ? [] : [{ severity: 'warn', words: hands }];
  if (failing.first !== null) {
    const where = failing.first === '' ? '' : `: the first problem is in bar ${failing.first}`;
    const ofPart = [`not playable as printed${where}`, ...describeFailing(failing)];
    return [...ofPart.map((words) => ({ severity: 'stop', words }) as const), ...ofHands];
  }
  const whole = harp === 'pedal' ? 'playable by hands and feet' : 'playable as printed';
  const part = harp === 'pedal' ? 'playable by the feet' : 'the levers are playable';
  return [{ severity: null, words: hands === '' ? whole : part }, ...ofHands];
};

/**
 * Whether hands and feet can play a part as printed.
 *
 * @example 'playable by the feet; the left hand has too much in 3 bars'
 */
export const describeVerdict = (failing: FailingBars, measures: Measures, harp: HarpKind): string =>
  listVerdict(failing, measures, harp)
    .map(({ words }) => words)
    .join('; ');

/** One reason for a grade as a sentence. */
export const describeCause = (cause: Cause, harp: HarpKind): string => {
  switch (cause.kind) {
    case 'easy':
      return describeEasy(cause.measures, harp);
    case 'unplayable':
      return describeUnplayable(cause.failing);
    case 'share':
      return describeShare(cause.passages, cause.of, cause.grade);
    case 'measure': {
      const sentence = REASONS[cause.name](cause.measures, harp);
      return cause.bars === null
        ? sentence
        : `${capitalize(nameBars(cause.bars.from, cause.bars.until))}: ${sentence}`;
    }
  }
};
