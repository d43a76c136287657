import { formatBeatText } from '../../engine/index.ts';
import type { LeverPlanReport } from '../api/lever-report.ts';
import type { PlanReport, ReportedFinding } from '../api/report.ts';
import { count, describeRemark, nameSeverity, oneLine, tabulate } from './summary.ts';

export const describeFinding = ({
  severity,
  bar,
  beat,
  sentence,
  suggestions,
}: Pick<ReportedFinding, 'severity' | 'bar' | 'beat' | 'sentence' | 'suggestions'>): readonly string[] => [
  oneLine(
    `${nameSeverity(severity)}: ${bar === '' ? 'a bar without number' : `bar ${bar}`}, beat ${formatBeatText(beat)}: ${sentence}`,
  ),
  ...suggestions.map((suggestion) => `  ${oneLine(suggestion)}`),
];

const describeSuggestion = ({
  notes,
  from,
  to,
  alongside,
  savesMoves,
  fixesPlaces,
}: PlanReport['suggestions'][number]): string => {
  const gains = [
    ...(savesMoves > 0 ? [`saves ${count(savesMoves, 'move')}`] : []),
    ...(fixesPlaces > 0 ? [`makes ${count(fixesPlaces, 'place')} playable`] : []),
  ];
  const runs = [{ notes, from, to }, ...alongside].map(
    (run) => `${run.from} as ${run.to} (${count(run.notes.length, 'note')})`,
  );
  return `suggestion: play ${runs.join(' and ')}: ${gains.join(' and ')}`;
};

const verdict = ({ summary: { playable, provenOptimal } }: PlanReport | LeverPlanReport): string =>
  `${playable ? 'playable' : 'not playable as printed'}${provenOptimal ? '' : '; the best plan found: there were too many possible plans to try them all'}`;

const describePedals = (report: PlanReport): readonly string[] => [
  report.setting,
  ...tabulate(
    ['bar', 'beat', 'change', 'foot'],
    report.moves.map(({ bar, beat, change, foot }) => [bar, formatBeatText(beat), change, foot]),
  ),
  ...report.findings.flatMap(describeFinding),
  ...tabulate(
    ['bar', 'beat', 'written', 'played as'],
    report.respellings.map(({ at, from, to }) => [`${at.bar}`, formatBeatText(at.beat), from, to]),
  ),
  ...report.suggestions.map(describeSuggestion),
  ...report.remarks.map(describeRemark),
  `${count(report.bars, 'bar')}, ${count(report.summary.moves, 'move')} (at least ${report.summary.minMoves} in any plan), ${verdict(report)}`,
];

const describeLevers = (report: LeverPlanReport): readonly string[] => [
  `${oneLine(report.instrument)}, tuned in ${report.tuning}`,
  `levers up: ${report.levers.length === 0 ? 'none' : report.levers.join(' ')}`,
  ...tabulate(
    ['bar', 'beat', 'change', 'hand'],
    report.moves.map(({ bar, beat, change, hand }) => [bar, formatBeatText(beat), change, hand]),
  ),
  ...report.findings.flatMap(describeFinding),
  ...tabulate(
    ['tuning', 'changes', 'levers up', 'to retune', 'on next string', 'missing notes'],
    report.tunings.map(({ name, changes, leversUp, retuned, respelled, missingNotes }) => [
      name,
      `${changes}`,
      `${leversUp}`,
      `${retuned}`,
      `${respelled}`,
      `${missingNotes}`,
    ]),
  ),
  ...report.remarks.map(describeRemark),
  `${count(report.bars, 'bar')}, ${count(report.summary.changes, 'change')} (at least ${report.summary.minChanges} in this tuning), ${verdict(report)}`,
];

/** The plan of either harp for the user to read. */
export const describePlan = (report: PlanReport | LeverPlanReport): readonly string[] =>
  report.harp === 'pedal' ? describePedals(report) : describeLevers(report);
