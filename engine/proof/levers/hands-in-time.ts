import { bisectLeft } from 'd3-array';
import type { LeverContext } from '../../levers/context.ts';
import { compare, type Rational, toNumber } from '../../music/rational.ts';
import { hasRested } from '../../time/rested.ts';
import type { PedalTask } from '../marking-playback.ts';

/** A lever that is to be set in performance: not before its marking is reached, not after a note asks for it. */
export interface LeverTask {
  readonly step: number;
  /** Where its marking stands. */
  readonly at: Rational;
  readonly task: PedalTask;
}

/** A change that no hand can make: none is free until its note, or each is at another lever. */
export interface HandTrouble extends LeverTask {
  readonly why: 'no-hand' | 'too-close';
}

export const troubleKey = ({ step, task }: LeverTask): string =>
  `${step} for ${task.before.note.id} ${task.pass}`;

/** Seconds at which each hand set its last lever. */
interface Hands {
  readonly left: number;
  readonly right: number;
}

/** Moments after a marking at which its lever is tried, and ways of sharing that are followed. */
const MOST_MOMENTS = 24;
const MOST_WAYS = 64;

/**
 * The changes that cannot be made. Either hand sets a lever where it plays nothing for half the time before and half
 * after, and its next one no sooner than the whole; how they share the changes is tried in all ways that matter.
 */
export const findHandTroubles = (
  tasks: readonly LeverTask[],
  { moments, free, options: { leverSeconds } }: Pick<LeverContext, 'moments' | 'free' | 'options'>,
): readonly HandTrouble[] => {
  const times = moments.all.map(({ at }) => toNumber(at));
  const troubles: HandTrouble[] = [];
  let ways: readonly Hands[] = [{ left: Number.NEGATIVE_INFINITY, right: Number.NEGATIVE_INFINITY }];
  const inOrder = tasks.toSorted(
    (a, b) => a.task.release - b.task.release || a.task.deadline - b.task.deadline,
  );
  for (const each of inOrder) {
    const { task, at } = each;
    const first = bisectLeft(times, toNumber(at));
    const start = moments.all[first];
    if (start === undefined || start.pause !== null) continue;
    const isAhead = compare(task.before.onset, at) >= 0;
    const slots = moments.all.slice(first, first + MOST_MOMENTS).flatMap((moment, i) => {
      const seconds = task.release + moment.seconds - start.seconds;
      if (seconds > task.deadline + 1e-9 || (!isAhead && moment.bar !== start.bar)) return [];
      const index = first + i;
      return (['left', 'right'] as const)
        .filter((hand) => free[hand].isFree[index] === 1)
        .map((hand) => ({ hand, seconds }));
    });
    const next = ways.flatMap((hands) =>
      slots
        .filter(({ hand, seconds }) => hasRested(seconds - hands[hand], leverSeconds))
        .map(({ hand, seconds }): Hands => ({ ...hands, [hand]: seconds })),
    );
    if (next.length === 0) troubles.push({ ...each, why: slots.length === 0 ? 'no-hand' : 'too-close' });
    else ways = keepEarliest(next);
  }
  return troubles;
};

/** Without those that leave each hand as late as another way does. */
const keepEarliest = (ways: readonly Hands[]): readonly Hands[] => {
  const sorted = ways.toSorted((a, b) => a.left - b.left || a.right - b.right);
  const kept: Hands[] = [];
  for (const way of sorted) if (way.right < (kept.at(-1)?.right ?? Number.POSITIVE_INFINITY)) kept.push(way);
  return kept.slice(0, MOST_WAYS);
};
