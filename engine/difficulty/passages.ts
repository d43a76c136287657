import { perObject } from '../memoize.ts';
import type { Score } from '../score/model/score.ts';

/** The bars of one passage: indices of the first and the last. */
export interface BarSpan {
  readonly from: number;
  readonly until: number;
}

/** What a player practises in one piece: most phrases are as long or half as long (common practice, no source). */
const MOST_BARS = 8;

/**
 * The passages of a part. One ends where the harp rests for a whole bar before a rehearsal mark and before a movement; what is
 * still
 * longer than eight bars is divided into parts of nearly the same length.
 */
export const findPassages = perObject((score: Score): readonly BarSpan[] => {
  const played = new Set(score.notes.filter(({ role }) => role !== 'cue').map(({ bar }) => bar));
  const marked = new Set([
    ...score.landmarks.filter(({ kind }) => kind === 'rehearsal').map(({ bar }) => bar),
    ...score.movements,
  ]);
  const spans: { from: number; until: number }[] = [];
  for (const { index } of score.bars) {
    if (!played.has(index)) continue;
    const last = spans.at(-1);
    if (last?.until === index - 1 && !marked.has(index)) last.until = index;
    else spans.push({ from: index, until: index });
  }
  return spans.flatMap(divide);
});

const divide = ({ from, until }: BarSpan): readonly BarSpan[] => {
  const bars = until - from + 1;
  const parts = Math.ceil(bars / MOST_BARS);
  const startOf = (part: number): number => from + Math.round((part * bars) / parts);
  return Array.from({ length: parts }, (_, part) => ({ from: startOf(part), until: startOf(part + 1) - 1 }));
};
