import { perObject } from '../memoize.ts';
import { add } from '../music/rational.ts';
import type { Score } from '../score/model/score.ts';
import type { PlannedDifficulty, TimedChange } from './model.ts';

/** Changes as they follow each other when the part is played, at the clock time of that way through it. */
export type Readings = <Change extends Pick<TimedChange, 'bar' | 'seconds'>>(
  changes: readonly Change[],
) => readonly (readonly Change[])[];

/**
 * The ways through a part in which no bar is played twice: the printed order, or where it has endings one way through each
 * of them. What stands in two endings is never played one after the other.
 */
export const readingsOf = ({
  score,
  secondsAt,
}: Pick<PlannedDifficulty, 'score' | 'secondsAt'>): Readings => {
  const runs = straightRuns(score);
  if (runs === null) return (changes) => [changes];
  const skipped = runs.map((run) => secondsSkipped(run, score, secondsAt));
  return (changes) =>
    skipped.map((before) =>
      changes.flatMap((change) => {
        const left = before.get(change.bar);
        return left === undefined ? [] : [{ ...change, seconds: change.seconds - left }];
      }),
    );
};

/** The bars (indices) of each way from one jump back to the next; null where no way leaves out a bar. */
const straightRuns = perObject(({ playOrder }: Score): readonly (readonly number[])[] | null => {
  const runs: number[][] = [];
  for (const [i, bar] of playOrder.entries()) {
    const before = playOrder[i - 1];
    if (before === undefined || bar <= before) runs.push([]);
    runs.at(-1)!.push(bar);
  }
  const leavesOut = runs.some((run) => run.some((bar, i) => i > 0 && bar > run[i - 1]! + 1));
  return leavesOut ? runs : null;
});

/** By its bars, how many seconds of the printed order a way has left out before. */
const secondsSkipped = (
  run: readonly number[],
  { bars }: Score,
  secondsAt: PlannedDifficulty['secondsAt'],
): ReadonlyMap<number, number> => {
  let skipped = 0;
  return new Map(
    run.map((bar, i) => {
      const before = bars[run[i - 1] ?? bar]!;
      if (i > 0 && bar > before.index + 1)
        skipped += secondsAt(bars[bar]!.onset) - secondsAt(add(before.onset, before.duration));
      return [bar, skipped];
    }),
  );
};
