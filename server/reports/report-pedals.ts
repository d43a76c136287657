import {
  formatChange,
  formatSetting,
  type Move,
  nameOfPosition,
  nameRun,
  nameString,
  type Plan,
  type PlanSummary,
  type SuggestedRun,
} from '../../engine/index.ts';
import type { ToldElsewhere } from '../../render/pure.ts';
import type { ReportedMove, ReportedSummary } from '../api/answers/report.ts';
import {
  reportChange,
  reportMoment,
  reportPlace,
  reportPlanFinding,
  reportRespelling,
  type ScoreNames,
  type ToldBars,
} from './report-notes.ts';
import { reportPlaces } from './report-summary.ts';

const reportMove = (move: Move, told: ToldElsewhere | undefined, bars: ToldBars): ReportedMove => ({
  ...reportMoment(move, bars),
  told: told === undefined ? null : reportPlace(told, bars),
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

const reportRun = (run: SuggestedRun, names: ScoreNames) => ({
  notes: run.notes,
  octaves: run.octaves,
  bars: names.bars([...new Set(run.notes.map((note) => names.note(note).barIndex))]),
  ...nameRun(run),
});

/** What a report tells of a plan for the pedal harp. */
export const reportPedals = (
  plan: Plan,
  elsewhere: readonly ToldElsewhere[],
  bars: ToldBars,
  names: ScoreNames,
) => {
  const toldOf = new Map(elsewhere.map((told) => [told.move, told]));
  return {
    harp: 'pedal' as const,
    setting: formatSetting(plan.initial),
    moves: plan.moves.map((move, index) => reportMove(move, toldOf.get(index), bars)),
    findings: plan.findings.map((finding) => reportPlanFinding(finding, names.note)),
    respellings: plan.respellings.map((each) => reportRespelling(each, bars, names.note)),
    omitted: plan.omitted,
    suggestions: plan.suggestions.map((suggestion) => ({
      ...suggestion,
      ...reportRun(suggestion, names),
      alongside: suggestion.alongside.map((run) => reportRun(run, names)),
      changes: suggestion.changes.map((change) => reportChange(change, names.note)),
    })),
    tunings: plan.tunings.map(({ string, alter }) => ({
      string: nameString(string),
      to: `${formatChange(string.letter, alter)}${string.octave}`,
    })),
    summary: reportSummary(plan.summary, bars),
  };
};
