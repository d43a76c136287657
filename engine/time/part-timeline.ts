import type { Rational } from '../music/rational.ts';
import { buildClock } from '../score/bars/clock.ts';
import type { Score } from '../score/model/score.ts';
import { type DampedAt, findDamping } from './damping.ts';
import { listMoments, type Moments } from './moments.ts';
import { buildPlayGraph, type PlayGraph } from './play-graph.ts';

/** When a part is played, and what is heard then. */
export interface PartTimeline {
  /** Clock time of a score time in printed order. */
  readonly secondsAt: (at: Rational) => number;
  readonly dampedAt: DampedAt;
  readonly moments: Moments;
  readonly graph: PlayGraph;
}

/** Whether a question about a timeline is one about another, as remembered answers ask. */
export const areSameTimelines = ([a]: readonly [PartTimeline], [b]: readonly [PartTimeline]): boolean =>
  a.moments === b.moments && a.graph === b.graph && a.secondsAt === b.secondsAt && a.dampedAt === b.dampedAt;

/** What depends on the score alone. */
export interface TimedPart extends PartTimeline {
  readonly score: Score;
}

/** Sets a part in time: clock times, moments at which feet may move, and which follows which when it is played. */
export const buildTimeline = (score: Score): TimedPart => {
  const secondsAt = buildClock(score.tempo);
  const moments = listMoments(score, secondsAt);
  const graph = buildPlayGraph(score, moments.all, secondsAt);
  return { score, secondsAt, dampedAt: findDamping(score, secondsAt), moments, graph };
};
