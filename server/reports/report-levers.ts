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
import {
  type NameNote,
  reportMoment,
  reportPlanFinding,
  reportRespelling,
  type ToldBars,
} from './report-notes.ts';
import { reportPlaces } from './report-summary.ts';

const reportMove = (move: LeverMove, bars: ToldBars): ReportedLeverMove => ({
  ...reportMoment(move, bars),
  hand: move.hand,
  string: nameString(move.string),
  to: move.to,
  change: leverName(move),
  onlyAt: move.onlyAt,
  handAway: move.handAway && {
    after: move.handAway.after?.note ?? null,
    before: move.handAway.before?.note ?? null,
  },
});

const reportSummary = (summary: LeverSummary, bars: ToldBars): LeverPlanReport['summary'] => ({
  ...summary,
  ...reportPlaces(summary, bars),
});

/** What a report tells of a lever plan. */
export const reportLevers = (
  { plan, profile }: HarpPlan & { readonly kind: 'lever' },
  bars: ToldBars,
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
  moves: plan.moves.map((move) => reportMove(move, bars)),
  findings: plan.findings.map((finding) => reportPlanFinding(finding, nameNote)),
  respellings: plan.respellings.map((each) => reportRespelling(each, bars, nameNote)),
  omitted: plan.omitted,
  tunings: plan.tunings.map(({ tuning: _, ...cost }) => cost),
  summary: reportSummary(plan.summary, bars),
});
