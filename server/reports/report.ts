import {
  formatChange,
  formatSetting,
  type HarpPlan,
  type Move,
  nameOfPosition,
  nameString,
  type Plan,
  type PlanSummary,
  pitchName,
  rationalKey,
  type Score,
  type SuggestedRun,
} from '../../engine/index.ts';
import type { Annotation } from '../../render/index.ts';
import type { LeverAnnotateReport, LeverPlanReport } from '../api/answers/lever-report.ts';
import type { AnnotateReport, PlanReport, ReportedMove, ReportedSummary } from '../api/answers/report.ts';
import { reportDifficulty } from './report-difficulty.ts';
import { reportLevers } from './report-levers.ts';
import {
  type NameNote,
  noteNamer,
  reportChange,
  reportMoment,
  reportPlanFinding,
  reportRemark,
  reportRespelling,
} from './report-notes.ts';
import { reportScore } from './report-score.ts';

const reportMove = (move: Move, barNumbers: readonly string[]): ReportedMove => ({
  ...reportMoment(move, barNumbers),
  foot: move.foot,
  pedal: move.letter,
  from: nameOfPosition(move.from),
  to: nameOfPosition(move.to),
  change: formatChange(move.letter, move.to),
});

const reportSummary = (summary: PlanSummary, barNumbers: readonly string[]): ReportedSummary => ({
  moves: summary.moves,
  minMoves: summary.minMoves,
  busiest: summary.busiest === null ? null : { ...summary.busiest, bar: barNumbers[summary.busiest.bar]! },
  playable: summary.playable,
  firstFailure: summary.firstFailure === null ? null : barNumbers[summary.firstFailure]!,
  difficulty: reportDifficulty(summary.difficulty, barNumbers),
  provenOptimal: summary.provenOptimal,
});

const reportRun = ({ notes, from, to }: SuggestedRun) => ({
  notes,
  from: pitchName(from),
  to: pitchName(to),
});

const reportPedals = (plan: Plan, barNumbers: readonly string[], nameNote: NameNote) => ({
  harp: 'pedal' as const,
  setting: formatSetting(plan.initial),
  moves: plan.moves.map((move) => reportMove(move, barNumbers)),
  findings: plan.findings.map((finding) => reportPlanFinding(finding, nameNote)),
  respellings: plan.respellings.map((each) => reportRespelling(each, barNumbers, nameNote)),
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
  summary: reportSummary(plan.summary, barNumbers),
});

const reportPlan = (harp: HarpPlan, barNumbers: readonly string[], nameNote: NameNote) =>
  harp.kind === 'pedal'
    ? reportPedals(harp.plan, barNumbers, nameNote)
    : reportLevers(harp, barNumbers, nameNote);

/** The report of a score that was planned and not drawn. */
export const reportPlannedScore = (score: Score, harp: HarpPlan): PlanReport | LeverPlanReport => ({
  ...reportScore(score),
  ...reportPlan(
    harp,
    score.bars.map((bar) => bar.number),
    noteNamer(score),
  ),
  remarks: score.remarks.map(reportRemark),
});

/** The report of an annotated score. */
export const reportAnnotation = (
  annotation: Annotation,
  nameNote: NameNote,
): AnnotateReport | LeverAnnotateReport => ({
  ...annotation.titles,
  part: annotation.part,
  parts: annotation.parts,
  bars: annotation.bars,
  ...reportPlan(annotation.plan, annotation.barNumbers, nameNote),
  remarks: annotation.remarks.map(reportRemark),
  flags: annotation.unplayablePlaces.map(({ number, bar, barNumber, beat, findings }) => ({
    number,
    bar: barNumber,
    barIndex: bar,
    beat: rationalKey(beat),
    findings,
  })),
  turns: annotation.turns.map(({ page, bar, free, seconds }) => ({
    page,
    bar: annotation.barNumbers[bar]!,
    free,
    seconds: Number.isFinite(seconds) ? seconds : null,
  })),
  // Every part has a page, so that no pages means that none were asked for.
  pageCount: annotation.pages.length === 0 ? null : annotation.pages.length,
  pages: annotation.pages,
});
