import { bisector } from 'd3-array';
import { add, compare, multiply, type Rational, rational } from '../../music/rational.ts';
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
