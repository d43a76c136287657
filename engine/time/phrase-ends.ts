import { bisector } from 'd3-array';
import { compare, type Rational } from '../music/rational.ts';
import type { PhraseMark } from '../score/model/between-notes.ts';

/** A slur over fewer notes joins a pair, and is no phrase (common practice, no source). */
const FEWEST_NOTES = 3;

/** What phrases go by of a moment. */
interface PhraseMoment {
  readonly at: Rational;
  readonly notesPlucked: number;
}

/**
 * Which moments lie at the end of a phrase, where the hands can wait for a foot: after the pluck of the last note, up to
 * and with the first of the next phrase. A slur ends a phrase unless another goes on meanwhile; a fermata, a breath mark
 * and a caesura do in any case (common practice, no source).
 *
 * @param moments in order of time
 */
export const findPhraseEnds = (
  marks: readonly PhraseMark[],
  moments: readonly PhraseMoment[],
): ((index: number) => boolean) => {
  const plucked = sumUp(moments.map(({ notesPlucked }) => (notesPlucked > 0 ? 1 : 0)));
  const inside = new Int32Array(moments.length + 1);
  const ended = new Int32Array(moments.length + 1);
  const stopped = new Int32Array(moments.length + 1);
  const after = (at: Rational): number => byTime.right(moments, at);
  const mark = (counts: Int32Array, from: number, until: number): void => {
    if (from >= until) return;
    counts[from]! += 1;
    counts[until]! -= 1;
  };
  for (const { kind, start, last, end } of marks) {
    if (kind !== 'slur') mark(stopped, after(last), after(end));
    else if (plucked[after(last)]! - plucked[byTime.left(moments, start)]! >= FEWEST_NOTES) {
      mark(inside, after(start), after(last));
      mark(ended, after(last), after(end));
    }
  }
  const [insideAt, endedAt, stoppedAt] = [inside, ended, stopped].map(runningSums);
  return (index) => stoppedAt![index]! > 0 || (endedAt![index]! > 0 && insideAt![index] === 0);
};

const byTime = bisector((moment: PhraseMoment, at: Rational) => compare(moment.at, at));

/** How many of the moments before each. */
const sumUp = (counts: readonly number[]): readonly number[] => {
  const sums = [0];
  for (const count of counts) sums.push(sums.at(-1)! + count);
  return sums;
};

const runningSums = (changes: Int32Array): Int32Array => {
  let sum = 0;
  return changes.map((change) => {
    sum += change;
    return sum;
  });
};
