import { perObject } from '../memoize.ts';
import { add } from '../music/rational.ts';
import { isMadeAt, numberPasses, type PlayedOnce } from '../score/bars/one-time.ts';
import type { Score } from '../score/model/score.ts';
import type { PlannedDifficulty, TimedChange } from './model.ts';

/** Changes as they follow each other when the part is played, at the clock time of that way through it. */
export type Readings = <Change extends Pick<TimedChange, 'bar' | 'seconds' | 'onlyAt'>>(
  changes: readonly Change[],
) => readonly (readonly Change[])[];

/**
 * The ways through a part in which no bar is played twice: the printed order, or where it has endings, or changes for one
 * time of playing alone, each way from one jump back to the next. What stands in two endings is never played one after the
 * other.
 */
export const readingsOf = ({
  score,
  secondsAt,
}: Pick<PlannedDifficulty, 'score' | 'secondsAt'>): Readings => {
  const runs = straightRuns(score);
  const leavesOut = runs.some((run) => run.some(({ item }, i) => i > 0 && item > run[i - 1]!.item + 1));
  const ways = runs.map((run) => readBars(run, score, secondsAt));
  return (changes) =>
    leavesOut || changes.some(({ onlyAt }) => onlyAt !== null)
      ? ways.map((way) =>
          changes.flatMap((change) => {
            const read = way.get(change.bar);
            if (read === undefined || !isMadeAt(change.onlyAt, read.pass)) return [];
            return [{ ...change, seconds: change.seconds - read.skipped }];
          }),
        )
      : [changes];
};

/** The bars (indices) of each way from one jump back to the next. */
const straightRuns = perObject(({ playOrder }: Score): readonly (readonly PlayedOnce<number>[])[] => {
  const runs: PlayedOnce<number>[][] = [];
  for (const [i, played] of numberPasses(playOrder).entries()) {
    const before = playOrder[i - 1];
    if (before === undefined || played.item <= before) runs.push([]);
    runs.at(-1)!.push(played);
  }
  return runs;
});

/** By the bars of a way, their time of playing, and how many seconds of the printed order it has left out before. */
const readBars = (
  run: readonly PlayedOnce<number>[],
  { bars }: Score,
  secondsAt: PlannedDifficulty['secondsAt'],
): ReadonlyMap<number, { readonly pass: number; readonly skipped: number }> => {
  let skipped = 0;
  return new Map(
    run.map(({ item: bar, pass }, i) => {
      const before = bars[run[i - 1]?.item ?? bar]!;
      if (i > 0 && bar > before.index + 1)
        skipped += secondsAt(bars[bar]!.onset) - secondsAt(add(before.onset, before.duration));
      return [bar, { pass, skipped }];
    }),
  );
};
