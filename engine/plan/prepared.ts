import { isPosition } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import { keyAlter } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
import { buildClock } from '../score/clock.ts';
import type { Score } from '../score/model.ts';
import type { PlacedNeed } from './choices.ts';
import type { Stage } from './foot.ts';
import { listMoments, type Moments } from './moments.ts';
import { type ChosenSpelling, listNeeds, type Needs } from './needs.ts';
import type { Pin, PlanOptions } from './options.ts';
import { type PinConflict, pinsFromMarkings, placePins } from './pins.ts';
import { buildPlayGraph, type PlayGraph } from './play-graph.ts';
import { placeNeeds } from './solve.ts';
import { findSweepSettings, type SweepSetting } from './sweep-setting.ts';

/** What does not change with the spelling: worked out once for a plan, its suggestions and its mends. */
export interface PreparedScore {
  readonly score: Score;
  readonly options: PlanOptions;
  readonly secondsAt: (at: Rational) => number;
  readonly moments: Moments;
  readonly graph: PlayGraph;
  readonly pins: readonly Pin[];
  readonly sweeps: readonly SweepSetting[];
}

export const prepareScore = (score: Score, options: PlanOptions): PreparedScore => {
  const secondsAt = buildClock(score.tempo);
  const moments = listMoments(score, secondsAt);
  const pins = [...options.pins, ...(options.keepMarkings ? pinsFromMarkings(score.markings) : [])];
  return {
    score,
    options,
    secondsAt,
    moments,
    graph: buildPlayGraph(score, moments.all, secondsAt),
    pins,
    sweeps: findSweepSettings(score, pins),
  };
};

/** A problem ready for the feet: what is asked, and on which stage. */
export interface FeetProblem {
  readonly listed: Needs;
  readonly needs: ReadonlyMap<Letter, readonly PlacedNeed[]>;
  readonly stage: Stage;
  readonly pinConflicts: readonly PinConflict[];
}

/** The needs of one spelling on the prepared score's stage. */
export const poseProblem = (prepared: PreparedScore, spelling: ChosenSpelling): FeetProblem => {
  const { score, options, moments, graph, secondsAt, pins, sweeps } = prepared;
  const listed = listNeeds(score, options.profile, sweeps, spelling);
  const needs = placeNeeds(listed.needs, moments);
  const placed = placePins(pins, needs, moments);
  return {
    listed,
    needs,
    stage: {
      moments,
      graph,
      secondsAt,
      weights: options.weights,
      together: options.pedalsTogether,
      idle: (letter) => {
        const alter = keyAlter(score.bars[0]?.keyFifths ?? 0, letter);
        return isPosition(alter) ? alter : 0;
      },
      pinned: (letter) => placed.positions.get(letter)!,
      isForbidden: placed.isForbidden,
    },
    pinConflicts: placed.conflicts,
  };
};
