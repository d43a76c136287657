import { KeptByText } from '../../memoize.ts';
import { candidatePositions } from '../../sounding/candidate-positions.ts';
import type { PlacedNeed } from '../../sounding/placed-needs.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import { type LeverSubproblem, listSubproblems } from './subproblems.ts';

/** Where one lever may stand, and what is to be decided about it. */
export interface LeverChoices {
  /** Positions worth considering by moment: 0 down, 1 up. */
  readonly at: readonly (readonly number[])[];
  readonly jobs: readonly Omit<LeverSubproblem, 'string'>[];
}

/** The choices for the needs of one string, in order of moment, and for what is pinned by moment. */
export type FindLeverChoices = (
  needs: readonly PlacedNeed[],
  pinned: ReadonlyMap<number, 0 | 1> | undefined,
) => LeverChoices;

/** Answers from memory where the same is asked again: most strings are tuned alike in most tunings that are compared. */
export const startLeverChoices = (graph: PlayGraph): FindLeverChoices => {
  const known = new KeptByText<LeverChoices>(MOST_KEPT);
  return (needs, pinned) => known.get(keyOf(needs, pinned), () => findChoices(needs, pinned, graph));
};

/** More than the strings of a harp in every way that they may be tuned. */
const MOST_KEPT = 1_000;

const keyOf = (needs: readonly PlacedNeed[], pinned: ReadonlyMap<number, 0 | 1> | undefined): string => {
  let key = '';
  for (const { moment, need } of needs) key += `${moment}:${need.position} `;
  return pinned === undefined ? key : `${key}/${[...pinned].join(' ')}`;
};

const findChoices = (
  needs: readonly PlacedNeed[],
  pinned: ReadonlyMap<number, 0 | 1> | undefined,
  graph: PlayGraph,
): LeverChoices => {
  const { at } = candidatePositions(needs, graph, 0, pinned);
  return { at, jobs: listSubproblems(0, at, graph) };
};
