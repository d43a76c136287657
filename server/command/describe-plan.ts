import type { LeverPlanReport } from '../api/lever-report.ts';
import type { PlanReport, ReportedFinding } from '../api/report.ts';
import { oneLine, tabulate } from './summary.ts';

export const describeFinding = ({
  severity,
  bar,
  beat,
  sentence,
  suggestions,
}: Omit<ReportedFinding, 'mends'>): readonly string[] => [
  oneLine(`${severity}: ${bar === '' ? 'a bar without number' : `bar ${bar}`}, beat ${beat}: ${sentence}`),
  ...suggestions.map((suggestion) => `  ${oneLine(suggestion)}`),
];

const verdict = ({ summary: { playable, proved } }: PlanReport | LeverPlanReport): string =>
  `${playable ? 'playable' : 'not playable as printed'}${proved ? '' : '; the best plan found, but there were too many to try them all'}`;

const describePedals = (report: PlanReport): readonly string[] => [
  report.setting,
  ...tabulate(
    ['bar', 'beat', 'change', 'foot'],
    report.moves.map(({ bar, beat, change, foot }) => [bar, beat, change, foot]),
  ),
  ...report.findings.flatMap(describeFinding),
  `${report.bars} bars, ${report.summary.moves} moves (no plan has fewer than ${report.summary.leastMoves}), ${verdict(report)}`,
];

const describeLevers = (report: LeverPlanReport): readonly string[] => [
  `${oneLine(report.instrument)}, tuned in ${report.tuning}`,
  `levers up: ${report.levers.length === 0 ? 'none' : report.levers.join(' ')}`,
  ...tabulate(
    ['bar', 'beat', 'change', 'hand'],
    report.moves.map(({ bar, beat, change, hand }) => [bar, beat, change, hand]),
  ),
  ...report.findings.flatMap(describeFinding),
  ...tabulate(
    ['tuning', 'changes', 'levers up', 'retuned', 'not given'],
    report.tunings.map(({ name, changes, leversUp, retuned, unserved }) => [
      name,
      `${changes}`,
      `${leversUp}`,
      `${retuned}`,
      `${unserved}`,
    ]),
  ),
  `${report.bars} bars, ${report.summary.changes} changes (no plan in this tuning has fewer than ${report.summary.leastChanges}), ${verdict(report)}`,
];

/** The plan of either harp for the user to read. */
export const describePlan = (report: PlanReport | LeverPlanReport): readonly string[] =>
  report.harp === 'pedal' ? describePedals(report) : describeLevers(report);
