import { group } from '../group.ts';
import { nameString } from '../harp/scordatura.ts';
import { isMadeAt, numberPasses } from '../score/bars/one-time.ts';
import type { LeverMove, LeverPlan } from './model.ts';

/**
 * Makes the changes of a plan as its bars are played.
 *
 * @param playOrder indices of bars, from the first that is played on
 * @returns names of the strings whose levers are up once the last of the bars has been played
 */
export const leversAfterBars = (
  playOrder: readonly number[],
  { initial, moves }: Pick<LeverPlan, 'initial'> & { readonly moves: readonly LeverMove[] },
): ReadonlySet<string> => {
  const ofBar = group(moves, ({ bar }) => bar);
  const up = new Set(initial.map(nameString));
  for (const { item: bar, pass } of numberPasses(playOrder)) {
    for (const { string, to, onlyAt } of ofBar.get(bar) ?? []) {
      if (!isMadeAt(onlyAt, pass)) continue;
      if (to === 'up') up.add(nameString(string));
      else up.delete(nameString(string));
    }
  }
  return up;
};
