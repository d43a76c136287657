import {
  type Decisions,
  delayNotes,
  type LeverHarpProfile,
  leverOptionsFor,
  type Playback,
  placeDecisions,
  planLevers,
  type Score,
  slowDown,
  takeShare,
  withoutUnplaced,
} from '../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import { reportLevers } from '../../../reports/report-levers.ts';
import { noteNamer, reportRemark, tellBars } from '../../../reports/report-notes.ts';
import { reportScore } from '../../../reports/report-score.ts';
import type { LeverChoices } from '../options/choices.ts';
import { createSlowedHearing } from './slowed-hearing.ts';

/** What was worked out about a part for the lever harp with what the user decided. */
export interface LeverPlanning {
  readonly report: LeverPlanReport;
  /** The decisions that have their place in this part: what it was planned with, and what the service is sent. */
  readonly inForce: Decisions;
  /** What became of decisions that have no place in this part, in sentences. */
  readonly lost: readonly string[];
  /** What is heard with passages slowed; null where none is. */
  readonly slowedHearing: Playback | null;
}

type LeverPlanner = (decisions: Decisions, choices: LeverChoices) => LeverPlanning;

/** Plans the levers for one part again and again by what the user decides and chooses. */
export const createLeverPlanner = (score: Score, profile: LeverHarpProfile): LeverPlanner => {
  const hear = createSlowedHearing(score);
  return (decisions, choices) => {
    const {
      leverPins: pins,
      respelled,
      omitted,
      delays,
      tempos,
      unplaced,
    } = placeDecisions(score, decisions);
    const share = slowDown(takeShare(score, choices.player), tempos);
    const played = delayNotes(share, delays);
    const plan = planLevers(played, { ...leverOptionsFor(choices), profile, pins, respelled, omitted });
    const harp = { kind: 'lever', plan, profile, omitted: [...omitted] } as const;
    const inForce = withoutUnplaced(decisions, unplaced);
    return {
      report: {
        ...reportScore(share),
        ...reportLevers(harp, tellBars(share), noteNamer(share)),
        remarks: share.remarks.map(reportRemark),
      },
      inForce,
      lost: unplaced.map(({ sentence }) => sentence),
      slowedHearing: hear(inForce),
    };
  };
};
