import { bisector } from 'd3-array';
import { add, compare, multiply, type Rational, rational, subtract } from '../../music/rational.ts';
import type { Bar, Score, ScoreText } from '../model.ts';
import { beatLength, isCompound, pulseLength } from './beats.ts';

/** SMuFL 1.4, range “Metronome marks”: the value of a note before the sign “=”, and its dot. */
const NOTE_OF_MARK = /([\uECA0-\uECAE])(\uECB7?)[^=]*=/u;
const HALF_NOTE = 0xeca3;

/** The note that a metronome mark counts, in quarters; null where a text has none. */
const countedNote = ({ text }: Pick<ScoreText, 'text'>): number | null => {
  const [, sign, dot] = NOTE_OF_MARK.exec(text) ?? [];
  if (sign === undefined) return null;
  // Each value has two signs, its stem up and its stem down.
  const halvings = Math.floor((sign.codePointAt(0)! - HALF_NOTE) / 2);
  return 2 ** (1 - halvings) * (dot === '' ? 1 : 1.5);
};

/**
 * How long a count is, in quarter notes, as a player counts aloud: the beat, and in a compound metre the main beat of
 * three, unless the metronome mark in force counts the short ones (common practice, no source).
 */
export const countFinder = (score: Pick<Score, 'texts'>): ((bar: Bar) => Rational) => {
  const marks = score.texts.flatMap(({ at, text }) => {
    const note = countedNote({ text });
    return note === null ? [] : [{ at, note }];
  });
  const { right } = bisector<(typeof marks)[number], Rational>((mark, at) => compare(mark.at, at));
  return ({ onset, meter }) => {
    const mark = marks[right(marks, onset) - 1];
    const beat = beatLength(meter);
    const isShort = mark !== undefined && isCompound(meter) && mark.note * beat.den <= beat.num;
    return isShort ? beat : pulseLength(meter);
  };
};

/** Of bars with more counts than this, which no one counts, only the start is one. */
const MOST_COUNTS = 32;

/** The moments of a bar that are counted, from its start. */
export const countsOf = (
  { onset, duration }: Pick<Bar, 'onset' | 'duration'>,
  length: Rational,
): Rational[] => {
  const counts = Math.ceil((duration.num * length.den) / (duration.den * length.num) - 1e-9);
  if (counts > MOST_COUNTS) return [onset];
  return Array.from({ length: Math.max(1, counts) }, (_, i) => add(onset, multiply(rational(i), length)));
};

/** A moment that is counted, and what is said there: from 1. */
export interface Count {
  readonly at: Rational;
  readonly count: number;
}

const wholeBar = ({ meter }: Bar): Rational => rational(meter.beats * 4, meter.beatUnit);

/**
 * How much of a whole bar has gone where each bar begins, in quarters: an upbeat is the end of one, and what follows the
 * first part of a bar that a repeat divides is its rest.
 */
const goneBefore = (bars: readonly Bar[]): readonly Rational[] => {
  const gone: Rational[] = [];
  for (const [i, bar] of bars.entries()) {
    const left = subtract(wholeBar(bar), bar.duration);
    const before = bars[i - 1];
    const isShort = left.num > 0;
    if (!isShort) gone.push(rational(0));
    else if (before === undefined) gone.push(left);
    else {
      const continues = gone[i - 1]!.num === 0 && compare(before.duration, left) === 0;
      gone.push(continues ? before.duration : rational(0));
    }
  }
  return gone;
};

/** The counts of every bar, in order: those of an upbeat are the last of its bar, if one falls into it. */
export const numberCounts = (
  bars: readonly Bar[],
  countIn: (bar: Bar) => Rational,
): readonly (readonly Count[])[] => {
  const gone = goneBefore(bars);
  return bars.map((bar, i) => {
    const length = countIn(bar);
    const passed = gone[i]!;
    const first = Math.ceil((passed.num * length.den) / (passed.den * length.num) - 1e-9);
    const lead = subtract(multiply(rational(first), length), passed);
    const rest = { onset: add(bar.onset, lead), duration: subtract(bar.duration, lead) };
    if (rest.duration.num <= 0) return [];
    return countsOf(rest, length).map((at, k) => ({ at, count: first + k + 1 }));
  });
};
