import {
  type Decisions,
  describeFollowed,
  type FollowedBars,
  followBars,
  followDecisions,
  placeDecisions,
  type Score,
  withoutUnplaced,
} from '../../../engine/index.ts';
import type { LeverPlanReport } from '../../api/answers/lever-report.ts';
import type { PlanReport } from '../../api/answers/report.ts';
import { decisionsFor } from '../../api/requests/decisions.ts';
import type { PlanChoice } from '../../api/requests/options.ts';
import type { Outcome } from '../../service-problem.ts';
import type { ScoreFile } from '../../threads/job.ts';
import { computePlan } from '../../threads/tasks/compute.ts';
import { readWhole } from '../../threads/tasks/plan-score.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../threads/tasks/stage-clock.ts';

/** A save as it was read and planned. */
export interface PlannedSave {
  readonly file: ScoreFile;
  readonly planned: Outcome<PlanReport | LeverPlanReport>;
  /** What became of the decisions that the command was given, a sentence each. */
  readonly followed: readonly string[];
  /** Where the bars of the last save that was planned went; null for the first. */
  readonly bars: FollowedBars | null;
}

/** The last save that was planned, and what the command was given as decided about it; undefined where that is nothing. */
interface LastSave {
  readonly score: Score;
  readonly decisions: Decisions | undefined;
}

/** The decisions of a choice by their places in a score; undefined where there are none, or they do not fit it. */
const decisionsOn = (score: Score, choice: PlanChoice): Decisions | undefined => {
  const chosen = decisionsFor(choice, score);
  return chosen.ok && chosen.value.origin === 'own' ? chosen.value.decisions : undefined;
};

/** What a command was given as decided about a file; undefined where that is nothing, or does not fit it, which the plan tells. */
export const givenDecisions = async (file: ScoreFile, choice: PlanChoice): Promise<Decisions | undefined> => {
  const read = await readWhole(file, choice, startStageClock(IGNORE_PROGRESS));
  return read.ok ? decisionsOn(read.value, choice) : undefined;
};

/**
 * Plans a file as it is saved again and again. The decisions of the choice go along with their bars; those that have no
 * place in a save are set aside for it.
 */
export const createSavePlanner = (choice: PlanChoice): ((file: ScoreFile) => Promise<PlannedSave>) => {
  const clock = () => startStageClock(IGNORE_PROGRESS);
  let last: LastSave | null = null;
  return async (file) => {
    const read = await readWhole(file, choice, clock());
    if (!read.ok) return { file, planned: read, followed: [], bars: null };
    const score = read.value;
    if (last === null) {
      const planned = await computePlan(file, choice, clock());
      if (planned.ok) last = { score, decisions: decisionsOn(score, choice) };
      return { file, planned, followed: [], bars: null };
    }
    const before = last;
    const bars = followBars(before.score, score);
    const { decisions, told, placed } = followOn(before, bars, score);
    const planned = await computePlan(file, { ...choice, ...placed } as PlanChoice, clock());
    if (planned.ok) last = { score, decisions };
    return { file, planned, followed: told, bars };
  };
};

/** The decisions on the next save, those of them that have a place there, and what is to be told of them. */
const followOn = ({ score, decisions }: LastSave, bars: FollowedBars, next: Score) => {
  if (decisions === undefined) return { decisions, placed: {}, told: [] };
  const followed = followDecisions(decisions, bars);
  const { unplaced } = placeDecisions(next, followed.decisions);
  const told = [
    ...describeFollowed(decisions, followed, score, next),
    ...unplaced.map(({ sentence }) => sentence.replace(/\.$/, '')),
  ];
  return { decisions: followed.decisions, placed: withoutUnplaced(followed.decisions, unplaced), told };
};
