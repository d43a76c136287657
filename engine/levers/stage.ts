import type { Score } from '../score/model.ts';
import { findSweepSettings, type SweepSetting } from '../sounding/sweep-setting.ts';
import type { PlayGraph } from '../time/play-graph.ts';
import { type PartInTime, setInTime } from '../time/timeline.ts';
import type { LeverOptions } from './options.ts';
import { type AskedPitch, listAskedPitches } from './strings/asked.ts';
import { type FreeHands, findFreeHands } from './strings/hands.ts';

/** What does not change with the tuning: worked out once for a piece. */
export interface LeverStage extends PartInTime {
  readonly options: LeverOptions;
  readonly sweeps: readonly SweepSetting[];
  readonly asked: readonly AskedPitch[];
  readonly free: FreeHands;
}

export const setStage = (score: Score, options: LeverOptions): LeverStage => {
  const inTime = setInTime(score);
  const sweeps = findSweepSettings(score, [], options.leftOut);
  const asked = listAskedPitches(score, sweeps, options.respelled, options.leftOut);
  const free = findFreeHands(asked, inTime.moments, inTime.graph, options.moveSeconds / 2);
  return { ...inTime, options, sweeps, asked, free };
};

/** Between moments that do not follow each other when the part is played lies more than any rest. */
const APART_SECONDS = 1e6;

/** Seconds from the first moment along the print. */
export const measureLine = (graph: PlayGraph): Float64Array => {
  const line = new Float64Array(graph.moments);
  for (let moment = 1; moment < graph.moments; moment += 1) {
    const step = graph.into[moment]!.find((edge) => edge.from === moment - 1);
    line[moment] = line[moment - 1]! + (step?.seconds ?? APART_SECONDS);
  }
  return line;
};
