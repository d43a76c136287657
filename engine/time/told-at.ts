import { perObject } from '../memoize.ts';
import { add, compare, type Rational } from '../music/rational.ts';
import type { Score } from '../score/model/score.ts';

/** Something done at a moment: a move of a pedal or a change of a lever. */
interface Placed {
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  /** Whether the user, or a marking that is kept, has it at this very moment. */
  readonly pinned?: boolean;
}

/**
 * When a player is told that something is done. A rest for the whole bar shows no beats to find it by, so what is done in
 * a bar of rest belongs to the bar and is told at its start, where its marking stands (common practice, no source); the
 * plan goes by the moment itself. What is pinned is told where it was pinned.
 */
export const toldAtIn: (score: Pick<Score, 'bars' | 'notes'>) => (placed: Placed) => Rational = perObject(
  (score) => {
    const silent = barsOfRest(score);
    return ({ at, bar, pinned }) => (silent.has(bar) && pinned !== true ? score.bars[bar]!.onset : at);
  },
);

/** The same things, each where it is told. */
export const placeAsTold = <P extends Placed>(
  score: Pick<Score, 'bars' | 'notes'>,
  placed: readonly P[],
): readonly P[] => {
  const toldAt = toldAtIn(score);
  return placed.map((each) => ({ ...each, at: toldAt(each) }));
};

/** The bars (indices) in which no note of the player begins or is held. */
export const barsOfRest = perObject(({ bars, notes }: Pick<Score, 'bars' | 'notes'>): ReadonlySet<number> => {
  const silent = new Set(bars.keys());
  for (const { role, bar, onset, duration } of notes) {
    if (role === 'cue') continue;
    silent.delete(bar);
    const end = add(onset, duration);
    for (let next = bar + 1; next < bars.length && compare(bars[next]!.onset, end) < 0; next += 1)
      silent.delete(next);
  }
  return silent;
});
