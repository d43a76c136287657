import type { Difficulty } from '../../engine/index.ts';
import { reportDifficulty } from './report-difficulty.ts';
import { reportBar, type ToldBars } from './report-notes.ts';

/** The bars that the summary of a plan speaks of, for either harp, and how hard the part is. */
export const reportPlaces = <Busiest extends { readonly bar: number }>(
  {
    busiest,
    firstFailure,
    difficulty,
  }: {
    readonly busiest: Busiest | null;
    readonly firstFailure: number | null;
    readonly difficulty: Difficulty;
  },
  bars: ToldBars,
) => ({
  busiest: busiest === null ? null : { ...busiest, ...reportBar(bars, busiest.bar) },
  firstFailure: firstFailure === null ? null : bars.barNumbers[firstFailure]!,
  difficulty: reportDifficulty(difficulty, bars),
});
