import { perObject } from '../memoize.ts';
import type { Rational } from '../music/rational.ts';
import { add } from '../music/rational.ts';
import type { Score } from '../score/model/score.ts';
import type { Moment } from './moments.ts';
import { PAUSE_STEP_SECONDS, pausesBetween } from './pauses.ts';

/** One moment follows another in performance, `seconds` later. */
export interface PlayEdge {
  readonly from: number;
  readonly to: number;
  readonly seconds: number;
}

/**
 * Which moments follow which when the part is played: the printed order within bars, and across bars whatever the
 * play order holds. What is printed is one thing however often it is played, so each step stands here once.
 */
export interface PlayGraph {
  readonly moments: number;
  /** The moment that is played first. */
  readonly start: number;
  /** Edges by the moment they lead to; the printed neighbour first. */
  readonly into: readonly (readonly PlayEdge[])[];
  /** Edges by the moment they leave. */
  readonly outOf: readonly (readonly PlayEdge[])[];
  /** The moments in the order in which they are played, each as often as it is. */
  readonly played: readonly number[];
}

/**
 * The clock stands still in a pause between movements: the steps of the graph hold the time that it takes.
 *
 * @param secondsAt clock time of a score time in printed order
 */
export const buildPlayGraph = (
  score: Score,
  moments: readonly Moment[],
  secondsAt: (at: Rational) => number,
): PlayGraph => {
  const span = momentsOfBars(score.bars.length, moments);
  const into: PlayEdge[][] = moments.map(() => []);
  const outOf: PlayEdge[][] = moments.map(() => []);
  const isPause = (moment: number): boolean => moments[moment]!.pause !== null;
  const link = (from: number, to: number, seconds: number): void => {
    if (into[to]!.some((edge) => edge.from === from)) return;
    const pausing = isPause(from) || isPause(to) ? PAUSE_STEP_SECONDS : 0;
    const edge = { from, to, seconds: Math.max(0, seconds) + pausing };
    into[to]!.push(edge);
    outOf[from]!.push(edge);
  };
  for (let i = 1; i < moments.length; i += 1) {
    if (moments[i]!.bar === moments[i - 1]!.bar)
      link(i - 1, i, moments[i]!.seconds - moments[i - 1]!.seconds);
  }
  const bars = score.playOrder.filter((bar) => span[bar] !== undefined);
  const start = span[bars[0] ?? 0]?.firstPlayed ?? 0;
  const played: number[] = [];
  const play = (first: number, last: number): void => {
    for (let moment = first; moment <= last; moment += 1) played.push(moment);
  };
  if (bars.length > 0) play(start, span[bars[0]!]!.last);
  for (let i = 1; i < bars.length; i += 1) {
    const from = span[bars[i - 1]!]!.last;
    const next = span[bars[i]!]!;
    const to = pausesBetween(score, bars[i - 1]!, bars[i]!) ? next.first : next.firstPlayed;
    const left = score.bars[bars[i - 1]!]!;
    const tail = secondsAt(add(left.onset, left.duration)) - moments[from]!.seconds;
    const head = moments[to]!.seconds - secondsAt(score.bars[bars[i]!]!.onset);
    link(from, to, to === from + 1 ? moments[to]!.seconds - moments[from]!.seconds : tail + head);
    play(to, next.last);
  }
  for (const edges of into) edges.sort((a, b) => Number(b.from === b.to - 1) - Number(a.from === a.to - 1));
  return { moments: moments.length, start, into, outOf, played };
};

/** Whether some step leads back, or to where it left. */
export const turnsBack = (graph: PlayGraph): boolean =>
  graph.into.some((edges, moment) => edges.some((edge) => edge.from >= moment));

/**
 * Seconds of the step to each moment from the one before it, where nothing else leads there; null where some moment is
 * reached otherwise.
 */
export const stepsReadStraight = perObject((graph: PlayGraph): Float64Array | null => {
  const steps = new Float64Array(graph.moments);
  for (let moment = 0; moment < graph.moments; moment += 1) {
    const [edge, another] = graph.into[moment]!;
    if (another !== undefined || (edge?.from ?? -1) !== moment - 1) return null;
    steps[moment] = edge?.seconds ?? 0;
  }
  return steps;
});

/** The moments of a bar. */
interface BarMoments {
  readonly first: number;
  /** The first that is none of the pause before it. */
  firstPlayed: number;
  last: number;
}

/** First and last moment of each bar; bars without time have none. */
const momentsOfBars = (
  bars: number,
  moments: readonly Moment[],
): readonly (Readonly<BarMoments> | undefined)[] => {
  const spans = new Array<BarMoments | undefined>(bars).fill(undefined);
  moments.forEach(({ bar, pause }, i) => {
    const known = spans[bar] ?? { first: i, firstPlayed: i, last: i };
    spans[bar] = known;
    known.last = i;
    if (pause !== null) known.firstPlayed = i + 1;
  });
  return spans;
};
