import { type LeverSubproblem, listSubproblems } from '../../../engine/levers/course/subproblems.ts';
import { candidatePositions } from '../../../engine/sounding/candidate-positions.ts';
import type { Need } from '../../../engine/sounding/needs.ts';
import type { PlacedNeed } from '../../../engine/sounding/placed-needs.ts';
import type { PlayGraph } from '../../../engine/time/play-graph.ts';
import { type BarredMoments, hearMoments } from '../barred-moments.ts';

export const PER_CHANGE = 10_000;
export const NO_TIME = 1_000_000;
/** More than what speaks against one moment rather than another. */
export const BY_TIME = 200;
export const REST = 1.5;

export type Lever = 0 | 1;

/** A part for trying, with prices of its moments. */
export interface SmallLevers extends BarredMoments {
  /** By string and moment: the lever asked for, or nothing. */
  readonly asked: readonly (readonly (Lever | null)[])[];
  readonly prices: readonly (readonly number[])[];
}

/**
 * What has to be done with the levers of a part.
 *
 * @param alike what is printed is made at every time of playing; else at one alone where that is better
 */
export const jobsOf = (music: SmallLevers, graph: PlayGraph, alike: boolean): readonly LeverSubproblem[] => {
  const heard = new Set(hearMoments(music).map(({ moment }) => moment));
  return music.asked.flatMap((asked, string) => {
    const needs = asked.flatMap((position, moment): PlacedNeed[] =>
      position === null || !heard.has(moment) ? [] : [{ need: { position } as unknown as Need, moment }],
    );
    const own = listSubproblems(string, candidatePositions(needs, graph, 0).at, graph);
    return alike ? own.map((job) => ({ ...job, stretches: [] })) : own;
  });
};
