import { rationalKey, toNumber } from '../music/rational.ts';
import { fail, ok, type Result } from '../problem.ts';
import type { Note } from './model/note.ts';
import type { Score } from './model/score.ts';

/**
 * What a part may hold, far above what music does (`MAX_PLAYED_BARS` for its bars as they are played): planning takes time in proportion to it, some 2 ms for each bar that
 * moves pedals, and longer for what sounds at once.
 */
export const PART_LIMITS = {
  /** The longest operas have some 8,000 (from memory). */
  bars: 10_000,
  notes: 50_000,
  /** A written-out cadenza may be one bar. */
  'notes-in-bar': 4_000,
  /** Four times the strings of a harp. */
  'notes-at-once': 200,
} as const;

export type PartLimit = keyof typeof PART_LIMITS;

/** The most notes that have something in common. */
const mostAlike = (notes: readonly Note[], keyOf: (note: Note) => string | number): number => {
  const counts = new Map<string | number, number>();
  for (const note of notes) {
    const key = keyOf(note);
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return [...counts.values()].reduce((most, count) => Math.max(most, count), 0);
};

/** Grace notes share their onset, and are played one after the other: looked at where there are so many at all. */
const mostAtOnce = (notes: readonly Note[]): number => {
  const withGraces = mostAlike(notes, ({ onset }) => toNumber(onset));
  if (withGraces <= PART_LIMITS['notes-at-once']) return withGraces;
  return mostAlike(notes, ({ onset, grace }) => `${rationalKey(onset)} ${grace?.order ?? ''}`);
};

/**
 * Checks how much a part holds before anything is worked out about it. Time in proportion to the notes.
 *
 * @returns the score, or `limit-exceeded`
 */
export const checkPartLimits = (score: Score): Result<Score> => {
  const { bars, notes } = score;
  const found: Readonly<Record<PartLimit, () => number>> = {
    bars: () => bars.length,
    notes: () => notes.length,
    'notes-in-bar': () => mostAlike(notes, ({ bar }) => bar),
    'notes-at-once': () => mostAtOnce(notes),
  };
  for (const what of Object.keys(PART_LIMITS) as PartLimit[]) {
    const limit = PART_LIMITS[what];
    const number = found[what]();
    if (number > limit) return fail({ code: 'limit-exceeded', what, limit, found: number });
  }
  return ok(score);
};
