import { group } from 'd3-array';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import { placeBars } from '../score/drawn/page-text.ts';
import type { PrintedLevers, ReadPage } from '../score/drawn/read-page.ts';

/** A marking for the hands as it stands on a page. */
export interface LeverMarking extends PrintedLevers {
  /** From 1. */
  readonly page: number;
}

/** Where things stand on the pages of a part for the lever harp. */
export interface LeverIndex {
  /** In order of the pages. */
  readonly markings: readonly LeverMarking[];
  /** The marking that prints each move; null for those that none tells of. */
  readonly markingOfMove: readonly (LeverMarking | null)[];
  readonly pageOfBar: (bar: number) => number;
}

/** Indices of the moves that a marking tells of. */
export const changesOfMarking = (
  { markingOfMove }: Pick<LeverIndex, 'markingOfMove'>,
  id: string,
): readonly number[] => markingOfMove.flatMap((marking, move) => (marking?.id === id ? [move] : []));

/** Finds the moves of a plan on the pages. @param barIds ids of all bars of the part */
export const indexLeverPages = (
  pages: readonly ReadPage[],
  barIds: readonly string[],
  { moves }: Pick<LeverPlanReport, 'moves'>,
): LeverIndex => {
  const markings = pages.flatMap(({ levers }, i) => levers.map((each) => ({ ...each, page: i + 1 })));
  const byOnset = group(markings, ({ onset }) => onset);
  return {
    markings,
    markingOfMove: moves.map(
      ({ at, change }) => byOnset.get(at)?.find(({ strings }) => strings.includes(change)) ?? null,
    ),
    pageOfBar: placeBars(
      pages.map((page) => page.barIds),
      barIds,
    ),
  };
};
