import { compare } from '../music/rational.ts';
import type { Moments } from '../time/moments.ts';
import type { Need } from './needs.ts';

/** The first and the last moment at which a need holds; the same one for a single pluck. */
export interface NeedSpan {
  readonly first: number;
  readonly last: number;
}

/** Where a need stands among the moments, on a pedal or on a lever's string. */
export const spanOf = (
  need: Pick<Need, 'startNote' | 'onset' | 'heldUntil' | 'release'>,
  moments: Moments,
): NeedSpan => {
  const first = firstOf(need, moments);
  // A single pluck, as nearly all are.
  if (need.heldUntil === need.onset) return { first, last: first };
  return { first, last: Math.max(first, moments.lastBefore(need.heldUntil)) };
};

/** What is asked for later than its note: at the next moment while that sounds, the last at the latest. */
const firstOf = (
  { startNote: first, onset, release }: Pick<Need, 'startNote' | 'onset' | 'release'>,
  moments: Moments,
): number => {
  const start = moments.ofNote(first);
  if (compare(onset, first.onset) <= 0) return start;
  return Math.max(start, Math.min(moments.firstFrom(onset), moments.lastBefore(release)));
};
