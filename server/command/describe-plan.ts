import { tellBeatText } from '../../engine/music/tell-beat.ts';
import type { LeverPlanReport } from '../api/lever-report.ts';
import type { PlanReport, ReportedFinding } from '../api/report.ts';
import { count, describeRemark, oneLine, tabulate } from './summary.ts';

export const describeFinding = ({
  severity,
  bar,
  beat,
  sentence,
  suggestions,
}: Pick<ReportedFinding, 'severity' | 'bar' | 'beat' | 'sentence' | 'suggestions'>): readonly string[] => [
  oneLine(
    `${severity}: ${bar === '' ? 'a bar without number' : `bar ${bar}`}, beat ${tellBeatText(beat)}: ${sentence}`,
  ),
  ...suggestions.map((suggestion) => `  ${oneLine(suggestion)}`),
];

const describeSuggestion = ({
  notes,
  from,
  to,
  savesMoves,
  mendsPlaces,
}: PlanReport['suggestions'][number]): string => {
  const gains = [
    ...(savesMoves > 0 ? [`saves ${count(savesMoves, 'move')}`] : []),
    ...(mendsPlaces > 0 ? [`mends ${count(mendsPlaces, 'place')}`] : []),
  ];
  return `suggestion: ${from} as ${to} (${count(notes.length, 'note')}) ${gains.join(' and ')}`;
};

const verdict = ({ summary: { playable, proved } }: PlanReport | LeverPlanReport): string =>
  `${playable ? 'playable' : 'not playable as printed'}${proved ? '' : '; the best plan found, but there were too many to try them all'}`;

const describePedals = (report: PlanReport): readonly string[] => [
  report.setting,
  ...tabulate(
    ['bar', 'beat', 'change', 'foot'],
    report.moves.map(({ bar, beat, change, foot }) => [bar, tellBeatText(beat), change, foot]),
  ),
  ...report.findings.flatMap(describeFinding),
  ...report.suggestions.map(describeSuggestion),
  ...report.remarks.map(describeRemark),
  `${count(report.bars, 'bar')}, ${count(report.summary.moves, 'move')} (no plan has fewer than ${report.summary.leastMoves}), ${verdict(report)}`,
];

const describeLevers = (report: LeverPlanReport): readonly string[] => [
  `${oneLine(report.instrument)}, tuned in ${report.tuning}`,
  `levers up: ${report.levers.length === 0 ? 'none' : report.levers.join(' ')}`,
  ...tabulate(
    ['bar', 'beat', 'change', 'hand'],
    report.moves.map(({ bar, beat, change, hand }) => [bar, tellBeatText(beat), change, hand]),
  ),
  ...report.findings.flatMap(describeFinding),
  ...tabulate(
    ['tuning', 'changes', 'levers up', 'retuned', 'other strings', 'not given'],
    report.tunings.map(({ name, changes, leversUp, retuned, respelled, unserved }) => [
      name,
      `${changes}`,
      `${leversUp}`,
      `${retuned}`,
      `${respelled}`,
      `${unserved}`,
    ]),
  ),
  ...report.remarks.map(describeRemark),
  `${count(report.bars, 'bar')}, ${count(report.summary.changes, 'change')} (no plan in this tuning has fewer than ${report.summary.leastChanges}), ${verdict(report)}`,
];

/** The plan of either harp for the user to read. */
export const describePlan = (report: PlanReport | LeverPlanReport): readonly string[] =>
  report.harp === 'pedal' ? describePedals(report) : describeLevers(report);
