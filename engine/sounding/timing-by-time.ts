import { isMadeAt, numberPasses, type OneTime } from '../score/bars/one-time.ts';
import type { PartTimeline } from '../time/part-timeline.ts';
import type { PlayEdge, PlayGraph } from '../time/play-graph.ts';
import { type NeedTiming, needTimingOf } from './need-timing.ts';
import type { PlacedNeed } from './placed-needs.ts';

/**
 * What surrounds each moment at one time of playing alone (see `NeedTiming`); where that is more than one pass, the worst
 * of them. A moment that is not played then has no sound and no need.
 */
export const needTimingAt = (
  needs: readonly PlacedNeed[],
  timeline: PartTimeline,
  time: OneTime,
): NeedTiming => {
  const { graph, moments } = timeline;
  const straight = unroll(graph);
  const played = numberPasses(graph.played);
  const places = new Map<number, PlacedNeed[]>();
  for (const each of needs) places.set(each.moment, [...(places.get(each.moment) ?? []), each]);
  const heard = graph.played.flatMap((moment, i) =>
    (places.get(moment) ?? []).map(({ need }): PlacedNeed => ({ need, moment: i })),
  );
  const all = graph.played.map((moment) => moments.all[moment]!);
  const timing = needTimingOf(heard, { ...timeline, graph: straight, moments: { ...moments, all } });
  const gather = (
    along: Float64Array,
    none: number,
    worst: (a: number, b: number) => number,
  ): Float64Array => {
    const at = new Float64Array(graph.moments).fill(none);
    for (const [i, { item: moment, pass }] of played.entries()) {
      if (isMadeAt(time, pass)) at[moment] = worst(at[moment]!, along[i]!);
    }
    return at;
  };
  return {
    notatedLeft: gather(timing.notatedLeft, 0, Math.max),
    audibleLeft: gather(timing.audibleLeft, 0, Math.max),
    freshLeft: gather(timing.freshLeft, 0, Math.max),
    untilNeed: gather(timing.untilNeed, Number.POSITIVE_INFINITY, Math.min),
  };
};

/** All that is played as one line, each moment as often as it is. */
const unroll = ({ into, played }: PlayGraph): PlayGraph => {
  const steps = played.map((moment, to): PlayEdge | null => {
    const from = played[to - 1];
    const edge = from === undefined ? undefined : into[moment]!.find((each) => each.from === from);
    return edge === undefined ? null : { from: to - 1, to, seconds: edge.seconds };
  });
  return {
    moments: played.length,
    start: 0,
    into: steps.map((step) => (step === null ? [] : [step])),
    outOf: steps.map((_, i) => (steps[i + 1] == null ? [] : [steps[i + 1]!])),
    played: played.map((_, i) => i),
  };
};
