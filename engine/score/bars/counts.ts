import { bisector } from 'd3-array';
import {
  add,
  compare,
  divide,
  multiply,
  type Rational,
  rational,
  subtract,
  toNumber,
} from '../../music/rational.ts';
import type { Bar } from '../model/bar.ts';
import type { Score } from '../model/score.ts';
import type { TempoUnit } from '../model/tempo.ts';
import type { ScoreText } from '../model/texts.ts';
import { barLength, beatLength, isCompound, pulseLength } from './beats.ts';

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

/** The notes that are counted, by their length in quarter notes. */
const NOTES: Readonly<Record<string, Omit<TempoUnit, 'quarters'>>> = {
  '4': { sign: '\u{1d15d}', value: 'whole', dots: 0 },
  '3': { sign: '\u{1d15e}.', value: 'half', dots: 1 },
  '2': { sign: '\u{1d15e}', value: 'half', dots: 0 },
  '3/2': { sign: '♩.', value: 'quarter', dots: 1 },
  '1': { sign: '♩', value: 'quarter', dots: 0 },
  '3/4': { sign: '♪.', value: 'eighth', dots: 1 },
  '1/2': { sign: '♪', value: 'eighth', dots: 0 },
  '3/8': { sign: '\u{1d161}.', value: '16th', dots: 1 },
  '1/4': { sign: '\u{1d161}', value: '16th', dots: 0 },
};

const QUARTER: TempoUnit = { sign: '♩', value: 'quarter', dots: 0, quarters: 1 };

/** What a tempo is told in: the note that is counted in a bar; the quarter where none is as long. */
export const tempoUnit = (count: Rational): TempoUnit => {
  const note = NOTES[count.den === 1 ? `${count.num}` : `${count.num}/${count.den}`];
  return note === undefined ? QUARTER : { ...note, quarters: toNumber(count) };
};

/** What tempi are told in at each bar of a score. */
export const tempoUnitFinder = (score: Pick<Score, 'texts'>): ((bar: Bar) => TempoUnit) => {
  const countIn = countFinder(score);
  return (bar) => tempoUnit(countIn(bar));
};

/** Of bars with more counts than this, which no one counts, only the start is one. */
const MOST_COUNTS = 32;

/** The moments of a bar that are counted, from its start. */
const countsOf = ({ onset, duration }: Pick<Bar, 'onset' | 'duration'>, length: Rational): Rational[] => {
  const counts = Math.ceil((duration.num * length.den) / (duration.den * length.num) - 1e-9);
  if (counts > MOST_COUNTS) return [onset];
  return Array.from({ length: Math.max(1, counts) }, (_, i) => add(onset, multiply(rational(i), length)));
};

/** A moment that is counted, and what is said there: from 1. */
export interface Count {
  readonly at: Rational;
  readonly count: number;
}

/** Whether a bar is shorter than its metre: an upbeat, or a piece of a bar that a repeat divides. */
export const isShortBar = ({ duration, meter }: Pick<Bar, 'duration' | 'meter'>): boolean =>
  compare(duration, barLength(meter)) < 0;

/**
 * How much of a whole bar has gone where each bar begins, in quarters: the upbeat of the piece or of a movement is the end
 * of one, and what follows the first part of a bar that a repeat divides is its rest.
 */
export const goneBefore = ({ bars, movements }: Pick<Score, 'bars' | 'movements'>): readonly Rational[] => {
  const gone: Rational[] = [];
  for (const [i, bar] of bars.entries()) {
    const left = subtract(barLength(bar.meter), bar.duration);
    const before = bars[i - 1];
    if (!isShortBar(bar)) gone.push(rational(0));
    else if (before === undefined || movements.includes(i)) gone.push(left);
    else {
      const continues = gone[i - 1]!.num === 0 && compare(before.duration, left) === 0;
      gone.push(continues ? before.duration : rational(0));
    }
  }
  return gone;
};

/** The bars (indices) that go on with the bar before them: the rest of a bar that a repeat divides. */
export const continuedBars = (score: Pick<Score, 'bars' | 'movements'>): ReadonlySet<number> =>
  new Set(
    [...goneBefore(score).entries()]
      .filter(([bar, gone]) => gone.num > 0 && bar > 0 && !score.movements.includes(bar))
      .map(([bar]) => bar),
  );

/** How a bar is counted aloud. */
export interface CountedBar {
  /** In order: those of an upbeat are the last of its bar, if one falls into it. */
  readonly counts: readonly Count[];
  /** Where a time falls among the counts, from 1, as an exact fraction: 5/2 is half a count after the second. */
  readonly countAt: (at: Rational) => Rational;
}

/** How every bar is counted, in order. */
export const countBars = ({
  bars,
  movements,
  texts,
}: Pick<Score, 'bars' | 'movements' | 'texts'>): readonly CountedBar[] => {
  const countIn = countFinder({ texts });
  const gone = goneBefore({ bars, movements });
  return bars.map((bar, i): CountedBar => {
    const length = countIn(bar);
    const passed = gone[i]!;
    const countAt = (at: Rational): Rational =>
      add(rational(1), divide(add(passed, subtract(at, bar.onset)), length));
    const first = Math.ceil((passed.num * length.den) / (passed.den * length.num) - 1e-9);
    const lead = subtract(multiply(rational(first), length), passed);
    const rest = { onset: add(bar.onset, lead), duration: subtract(bar.duration, lead) };
    const counts =
      rest.duration.num <= 0
        ? []
        : countsOf(rest, length).map((at, k): Count => ({ at, count: first + k + 1 }));
    return { counts, countAt };
  });
};
