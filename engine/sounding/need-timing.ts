import type { PartTimeline } from '../time/part-timeline.ts';
import { type PlayGraph, stepsReadStraight, turnsBack } from '../time/play-graph.ts';
import type { PlacedNeed } from './placed-needs.ts';
import { LEAST_SOUNDING_SECONDS, NATURAL_RING_SECONDS } from './string-times.ts';

/** What surrounds each moment for one pedal's strings, in seconds; where passes differ, the worst of them. */
export interface NeedTiming {
  /** How long the notated sound of a string of the letter, plucked before, still lasts; 0 where none does. */
  readonly notatedLeft: Float64Array;
  /** The same with the strings' natural ring. */
  readonly audibleLeft: Float64Array;
  /** How long a string of the letter, plucked before, cannot have been stilled yet, however short its note. */
  readonly freshLeft: Float64Array;
  /** Time until the next need of the letter; 0 at a need, infinite where none follows. */
  readonly untilNeed: Float64Array;
}

/** How long the sound of a need lasts from its moment on, in seconds; see `NeedTiming`. */
export const soundOf = (
  { need, moment }: PlacedNeed,
  { moments, secondsAt, dampedAt }: PartTimeline,
): { readonly notated: number; readonly audible: number; readonly fresh: number } => {
  // A grace note is plucked ahead of its onset, and sounds until then.
  const { seconds } = moments.all[moment]!;
  const plucked = need.note.grace === null ? Math.max(secondsAt(need.onset), seconds) : seconds;
  const length = Math.max(0, secondsAt(need.release) - plucked);
  const ring = Math.max(LEAST_SOUNDING_SECONDS, length) + (NATURAL_RING_SECONDS[need.octave] ?? 1);
  const longest = dampedAt(need.note, plucked) - plucked;
  return {
    notated: Math.min(longest, need.note.letRing ? ring : length),
    audible: Math.min(longest, ring),
    fresh: Math.min(longest, LEAST_SOUNDING_SECONDS),
  };
};

/** @param needs of one letter, in order of moment */
export const needTimingOf = (needs: readonly PlacedNeed[], timeline: PartTimeline): NeedTiming => {
  const { graph } = timeline;
  const notated = new Float64Array(graph.moments);
  const audible = new Float64Array(graph.moments);
  const fresh = new Float64Array(graph.moments);
  const needed = new Float64Array(graph.moments).fill(Number.POSITIVE_INFINITY);
  for (const placed of needs) {
    const { moment } = placed;
    const sound = soundOf(placed, timeline);
    fresh[moment] = Math.max(fresh[moment]!, sound.fresh);
    notated[moment] = Math.max(notated[moment]!, sound.notated);
    audible[moment] = Math.max(audible[moment]!, sound.audible);
    needed[moment] = 0;
  }
  const notatedLeft = fadeForwards(notated, graph);
  const audibleLeft = fadeForwards(audible, graph);
  const freshLeft = fadeForwards(fresh, graph);
  // A slide wants the string to ring while the pedal moves.
  for (const { need, moment } of needs) {
    if (need.kind === 'slid') notatedLeft[moment] = audibleLeft[moment] = freshLeft[moment] = 0;
  }
  return {
    notatedLeft,
    audibleLeft,
    freshLeft,
    untilNeed: countBackwards(needed, graph),
  };
};

/** Sound that starts at a moment (not yet heard there) is followed along the play order until it has died. */
const fadeForwards = (started: Float64Array, graph: PlayGraph): Float64Array => {
  const left = new Float64Array(graph.moments);
  const steps = stepsReadStraight(graph);
  if (steps !== null) {
    for (let moment = 1; moment < left.length; moment += 1) {
      const longest = Math.max(started[moment - 1]!, left[moment - 1]!) - steps[moment]!;
      if (longest > 1e-9) left[moment] = longest;
    }
    return left;
  }
  repeatUntilSteady(graph, () => {
    let changed = false;
    for (let moment = 0; moment < graph.moments; moment += 1) {
      let longest = 0;
      for (const { from, seconds } of graph.into[moment]!) {
        longest = Math.max(longest, Math.max(started[from]!, left[from]!) - seconds);
      }
      if (longest <= left[moment]! + 1e-9) continue;
      left[moment] = longest;
      changed = true;
    }
    return changed;
  });
  return left;
};

const countBackwards = (needed: Float64Array, graph: PlayGraph): Float64Array => {
  const until = Float64Array.from(needed);
  const steps = stepsReadStraight(graph);
  if (steps !== null) {
    for (let moment = until.length - 2; moment >= 0; moment -= 1) {
      const next = until[moment + 1]! + steps[moment + 1]!;
      if (next < until[moment]! - 1e-9) until[moment] = next;
    }
    return until;
  }
  repeatUntilSteady(graph, () => {
    let changed = false;
    for (let moment = graph.moments - 1; moment >= 0; moment -= 1) {
      for (const { to, seconds } of graph.outOf[moment]!) {
        if (until[to]! + seconds >= until[moment]! - 1e-9) continue;
        until[moment] = until[to]! + seconds;
        changed = true;
      }
    }
    return changed;
  });
  return until;
};

/** One pass along the printed order is enough where the music never turns back. */
const repeatUntilSteady = (graph: PlayGraph, pass: () => boolean): void => {
  const once = !turnsBack(graph);
  while (pass() && !once);
};
