import type { Score } from '../../score/model/score.ts';

/** How one pass of a bar is come to. */
export type Entry =
  | { readonly from: 'start' }
  /** From the bar before, on that pass of it. */
  | { readonly from: 'before'; readonly pass: number }
  /** By a jump, named by its step in the play order, from a bar printed earlier, or from here or later. */
  | { readonly from: 'earlier' | 'later'; readonly jump: number };

/** A jump by which the music leaves a bar on one of its passes. */
export interface Exit {
  readonly pass: number;
  readonly jump: number;
  /** To a bar printed earlier, or to the same. */
  readonly leadsBack: boolean;
}

/** All passes of one bar, in the order they are played. */
export interface BarPasses {
  readonly entries: readonly Entry[];
  readonly exits: readonly Exit[];
}

/** More passes than nearly any printed form asks for; further ones are taken as the last of these. */
const MOST_PASSES = 6;

/**
 * How the passes of all bars hang together: what is printed once is played on all of them.
 *
 * @returns for each bar its passes, none where it is never played; and whether all are told apart
 */
export const listPasses = (
  score: Pick<Score, 'bars' | 'playOrder'>,
): { readonly bars: readonly BarPasses[]; readonly complete: boolean } => {
  const { playOrder } = score;
  const bars = score.bars.map(() => ({ entries: [] as Entry[], exits: [] as Exit[] }));
  const passAt: number[] = [];
  let complete = true;
  for (const [step, bar] of playOrder.entries()) {
    const { entries } = bars[bar]!;
    if (entries.length === MOST_PASSES) {
      complete = false;
      passAt.push(MOST_PASSES - 1);
      continue;
    }
    passAt.push(entries.length);
    const before = step === 0 ? null : playOrder[step - 1]!;
    if (before === null) entries.push({ from: 'start' });
    else if (before === bar - 1) entries.push({ from: 'before', pass: passAt[step - 1]! });
    else {
      const leadsBack = before >= bar;
      entries.push({ from: leadsBack ? 'later' : 'earlier', jump: step });
      bars[before]!.exits.push({ pass: passAt[step - 1]!, jump: step, leadsBack });
    }
  }
  return { bars, complete };
};
