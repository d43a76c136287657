import type { Side } from '../harp/side.ts';
import { readLeverSigns } from '../score/lever-signs.ts';
import type { Score } from '../score/model/score.ts';
import { findSweepSettings, type SweepSetting } from '../sounding/glissando-settings.ts';
import { buildTimeline, type TimedPart } from '../time/part-timeline.ts';
import type { PlayGraph } from '../time/play-graph.ts';
import type { MoveWindow } from '../time/window.ts';
import { type FindLeverChoices, startLeverChoices } from './course/lever-choices.ts';
import type { LeverOptions } from './options.ts';
import { listPitchNeeds, type PitchNeed } from './strings/asked.ts';
import { type FreeHands, findFreeHands } from './strings/free-hands.ts';
import { findHandsAway } from './strings/hand-away.ts';
import { LEVER_WEIGHTS, type LeverWeights } from './weights.ts';

/** What does not change with the tuning: worked out once for a piece. */
export interface LeverContext extends TimedPart {
  readonly options: LeverOptions;
  readonly weights: LeverWeights;
  readonly sweeps: readonly SweepSetting[];
  readonly pitchNeeds: readonly PitchNeed[];
  readonly free: FreeHands;
  readonly findChoices: FindLeverChoices;
  /** Between which of its notes a hand is away that sets a lever at a moment. */
  readonly handAwayAt: (hand: Side, moment: number) => MoveWindow;
}

/** @param part small diamonds in it are no notes (see `readLeverSigns`) */
export const prepareLevers = (
  part: Score,
  options: LeverOptions,
  weights: LeverWeights = LEVER_WEIGHTS,
): LeverContext => {
  const score = readLeverSigns(part);
  const inTime = buildTimeline(score);
  const sweeps = findSweepSettings(score, [], options.omitted);
  const pitchNeeds = listPitchNeeds(score, sweeps, options.respelled, options.omitted);
  const free = findFreeHands(pitchNeeds, inTime.moments, inTime.graph, options.leverSeconds / 2);
  const handAwayAt = findHandsAway(pitchNeeds, inTime.moments);
  return {
    ...inTime,
    options,
    weights,
    sweeps,
    pitchNeeds,
    free,
    handAwayAt,
    findChoices: startLeverChoices(inTime.graph),
  };
};

/** Between moments that do not follow each other when the part is played lies more than any rest. */
const APART_SECONDS = 1e6;

/** Seconds from the first moment along the print. */
export const printedSeconds = (graph: PlayGraph): Float64Array => {
  const line = new Float64Array(graph.moments);
  for (let moment = 1; moment < graph.moments; moment += 1) {
    const step = graph.into[moment]!.find((edge) => edge.from === moment - 1);
    line[moment] = line[moment - 1]! + (step?.seconds ?? APART_SECONDS);
  }
  return line;
};
