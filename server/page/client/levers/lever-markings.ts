import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { findBars, listGroups } from '../score/page-text.ts';

/** A marking for the hands as it stands on a page. */
export interface LeverMarking {
  readonly id: string;
  /** From 1. */
  readonly page: number;
  /** Exact score time, such as `51/2`. */
  readonly onset: string;
  /** What the strings give then, such as `F♯4`. */
  readonly strings: readonly string[];
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

const GROUP = /<g id="(marking-[\d-]+)" class="[^"]*lever-marking[^"]*"([^>]*)>/g;

const readMarkings = (pages: readonly string[]): readonly LeverMarking[] =>
  listGroups(pages, GROUP).map(({ id, page, attribute }) => ({
    id,
    page,
    onset: attribute('data-onset'),
    strings: attribute('data-strings').split(' '),
  }));

/** Finds the moves of a plan on its pages. */
export const indexLeverPages = (
  { pages, moves }: Pick<LeverAnnotateReport, 'pages' | 'moves'>,
  barIds: readonly string[],
): LeverIndex => {
  const markings = readMarkings(pages);
  return {
    markings,
    markingOfMove: moves.map(
      ({ at, change }) =>
        markings.find(({ onset, strings }) => onset === at && strings.includes(change)) ?? null,
    ),
    pageOfBar: findBars(pages, barIds),
  };
};
