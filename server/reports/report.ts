import { type HarpPlan, rationalKey, type Score } from '../../engine/index.ts';
import type { Annotation } from '../../render/index.ts';
import { completeEngraving, movesToldElsewhere, type ToldElsewhere } from '../../render/pure.ts';
import type { LeverAnnotateReport, LeverPlanReport } from '../api/answers/lever-report.ts';
import type { AnnotateReport, PlanReport } from '../api/answers/report.ts';
import { reportLevers } from './report-levers.ts';
import {
  namesIn,
  reportBar,
  reportRemark,
  type ScoreNames,
  type ToldBars,
  tellBars,
} from './report-notes.ts';
import { reportPedals } from './report-pedals.ts';
import { reportScore } from './report-score.ts';

const reportPlan = (
  harp: HarpPlan,
  elsewhere: readonly ToldElsewhere[],
  bars: ToldBars,
  names: ScoreNames,
) =>
  harp.kind === 'pedal'
    ? reportPedals(harp.plan, elsewhere, bars, names)
    : reportLevers(harp, bars, names.note);

/** Where moves are told is that of a part with the usual options. */
const elsewhereAsUsual = (score: Score, harp: HarpPlan): readonly ToldElsewhere[] =>
  harp.kind === 'pedal' ? movesToldElsewhere(score, harp.plan, completeEngraving({})) : [];

/** The report of a score that was planned and not drawn. */
export const reportPlannedScore = (score: Score, harp: HarpPlan): PlanReport | LeverPlanReport => ({
  ...reportScore(score),
  ...reportPlan(harp, elsewhereAsUsual(score, harp), tellBars(score), namesIn(score)),
  remarks: score.remarks.map(reportRemark),
});

/** The report of an annotated score. */
export const reportAnnotation = (
  annotation: Annotation,
  names: ScoreNames,
): AnnotateReport | LeverAnnotateReport => ({
  ...annotation.titles,
  part: annotation.part,
  parts: annotation.parts,
  bars: annotation.bars,
  ...reportPlan(annotation.plan, annotation.toldElsewhere, annotation, names),
  remarks: annotation.remarks.map(reportRemark),
  flags: annotation.unplayablePlaces.map(({ number, bar, barNumber, barName, beat, findings }) => ({
    number,
    bar: barNumber,
    barName,
    barIndex: bar,
    beat: rationalKey(beat),
    findings,
  })),
  turns: annotation.turns.map(({ page, bar, free, seconds }) => ({
    page,
    ...reportBar(annotation, bar),
    free,
    seconds: Number.isFinite(seconds) ? seconds : null,
  })),
  // Every part has a page, so that no pages means that none were asked for.
  pageCount: annotation.pages.length === 0 ? null : annotation.pages.length,
  pages: annotation.pages,
});
