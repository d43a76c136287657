import {
  type HarpPlan,
  isFixedString,
  type LeverMove,
  type LeverSummary,
  listStrings,
  nameString,
  openAlter,
  pitchName,
} from '../../engine/index.ts';
import { leverName } from '../../render/pure.ts';
import type { LeverPlanReport, ReportedLeverMove } from '../api/answers/lever-report.ts';
import { reportDifficulty } from './report-difficulty.ts';
import { type NameNote, reportMoment, reportPlanFinding, reportRespelling } from './report-notes.ts';

const reportMove = (move: LeverMove, barNumbers: readonly string[]): ReportedLeverMove => ({
  ...reportMoment(move, barNumbers),
  hand: move.hand,
  string: nameString(move.string),
  to: move.to,
  change: leverName(move),
  handAway: move.handAway && {
    after: move.handAway.after?.note ?? null,
    before: move.handAway.before?.note ?? null,
  },
});

const reportSummary = (summary: LeverSummary, barNumbers: readonly string[]): LeverPlanReport['summary'] => ({
  ...summary,
  busiest: summary.busiest === null ? null : { ...summary.busiest, bar: barNumbers[summary.busiest.bar]! },
  firstFailure: summary.firstFailure === null ? null : barNumbers[summary.firstFailure]!,
  difficulty: reportDifficulty(summary.difficulty, barNumbers),
});

/** What a report tells of a lever plan. */
export const reportLevers = (
  { plan, profile }: HarpPlan & { readonly kind: 'lever' },
  barNumbers: readonly string[],
  nameNote: NameNote,
) => ({
  harp: 'lever' as const,
  instrument: profile.name,
  tuning: plan.tunings[0]!.name,
  levers: plan.initial.map((string) => leverName({ string, alter: openAlter(plan.tuning, string) + 1 })),
  strings: listStrings(profile).map((string) => ({
    string: nameString(string),
    open: pitchName({ ...string, alter: openAlter(plan.tuning, string) }),
    lever: !isFixedString(profile, string),
  })),
  moves: plan.moves.map((move) => reportMove(move, barNumbers)),
  findings: plan.findings.map((finding) => reportPlanFinding(finding, nameNote)),
  respellings: plan.respellings.map((each) => reportRespelling(each, barNumbers, nameNote)),
  omitted: plan.omitted,
  tunings: plan.tunings.map(({ tuning: _, ...cost }) => cost),
  summary: reportSummary(plan.summary, barNumbers),
});
