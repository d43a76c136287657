import {
  formatChange,
  formatSetting,
  type Move,
  nameOfPosition,
  nameString,
  type Plan,
  type PlanSummary,
  pitchName,
  type SuggestedRun,
} from '../../engine/index.ts';
import type { ReportedMove, ReportedSummary } from '../api/answers/report.ts';
import {
  type NameNote,
  reportChange,
  reportMoment,
  reportPlanFinding,
  reportRespelling,
  type ToldBars,
} from './report-notes.ts';
import { reportPlaces } from './report-summary.ts';

const reportMove = (move: Move, bars: ToldBars): ReportedMove => ({
  ...reportMoment(move, bars),
  foot: move.foot,
  pedal: move.letter,
  from: nameOfPosition(move.from),
  to: nameOfPosition(move.to),
  change: formatChange(move.letter, move.to),
});

const reportSummary = (summary: PlanSummary, bars: ToldBars): ReportedSummary => ({
  moves: summary.moves,
  minMoves: summary.minMoves,
  ...reportPlaces(summary, bars),
  playable: summary.playable,
  provenOptimal: summary.provenOptimal,
});

const reportRun = ({ notes, from, to }: SuggestedRun) => ({
  notes,
  from: pitchName(from),
  to: pitchName(to),
});

/** What a report tells of a plan for the pedal harp. */
export const reportPedals = (plan: Plan, bars: ToldBars, nameNote: NameNote) => ({
  harp: 'pedal' as const,
  setting: formatSetting(plan.initial),
  moves: plan.moves.map((move) => reportMove(move, bars)),
  findings: plan.findings.map((finding) => reportPlanFinding(finding, nameNote)),
  respellings: plan.respellings.map((each) => reportRespelling(each, bars, nameNote)),
  omitted: plan.omitted,
  suggestions: plan.suggestions.map((suggestion) => ({
    ...suggestion,
    ...reportRun(suggestion),
    alongside: suggestion.alongside.map(reportRun),
    changes: suggestion.changes.map((change) => reportChange(change, nameNote)),
  })),
  tunings: plan.tunings.map(({ string, alter }) => ({
    string: nameString(string),
    to: `${formatChange(string.letter, alter)}${string.octave}`,
  })),
  summary: reportSummary(plan.summary, bars),
});
