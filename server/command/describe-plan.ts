import {
  describeGains,
  formatBeatText,
  GRADE_WORDS,
  listNames,
  nameCount,
  nameExtent,
  nameLeversUp,
  nameNotesIn,
  namePlaceInBar,
  orderForPeople,
  SEARCH_ENDED,
  TUNINGS_UNTRIED,
  tabulateTunings,
} from '../../engine/index.ts';
import type { LeverPlanReport } from '../api/answers/lever-report.ts';
import type { PlanReport, ReportedFinding } from '../api/answers/report.ts';
import { nameSeverity } from '../reports/name-severity.ts';
import { describeRemarks, oneLine, tabulate } from './summary.ts';

/** More of them are for programs. */
const MOST_SUGGESTIONS = 6;

export const describeFinding = ({
  severity,
  barName,
  untilName,
  beat,
  sentence,
  suggestions,
  places,
  notes,
}: Omit<ReportedFinding, 'code' | 'fixes' | 'staff'>): readonly string[] => {
  const extent = { from: barName, until: untilName, beat, places: places.length, notes: notes.length };
  const further = suggestions.length - MOST_SUGGESTIONS;
  return [
    oneLine(`${nameSeverity(severity)}: ${nameExtent(extent)}: ${sentence}`),
    ...suggestions.slice(0, MOST_SUGGESTIONS).map((suggestion) => `  ${oneLine(suggestion)}`),
    ...(further > 0 ? [`  and ${nameCount(further, 'more suggestion')}`] : []),
  ];
};

/** The gravest first. */
const describeFindings = (findings: readonly DescribedFinding[]): readonly string[] =>
  orderForPeople(findings).flatMap(({ finding }) => describeFinding(finding));

type DescribedFinding = Parameters<typeof describeFinding>[0];

const describeSuggestion = (suggestion: PlanReport['suggestions'][number]): string => {
  const { alongside, savesMoves, fixesPlaces } = suggestion;
  const runs = [suggestion, ...alongside].map(
    ({ from, to, bars, notes, octaves }) =>
      `${from} as ${to} in ${bars} (${nameNotesIn(notes.length, octaves)})`,
  );
  return `suggestion: play ${listNames(runs)}: ${describeGains(savesMoves, fixesPlaces)}`;
};

/** Whether it is playable, and how hard. */
const verdict = ({ summary }: PlanReport | LeverPlanReport): string => {
  const { difficulty, provenOptimal } = summary;
  const search = provenOptimal ? [] : [SEARCH_ENDED];
  const tunings =
    'allTuningsTried' in summary && !summary.allTuningsTried
      ? [`${TUNINGS_UNTRIED}: name others with --tuning`]
      : [];
  return [difficulty.verdict, GRADE_WORDS[difficulty.grade], ...search, ...tunings].join('; ');
};

const countMoves = (report: PlanReport | LeverPlanReport): string =>
  report.harp === 'pedal'
    ? `${nameCount(report.summary.moves, 'move')} (at least ${report.summary.minMoves} with these spellings)`
    : `${nameCount(report.summary.changes, 'change')} (at least ${report.summary.minChanges} in this tuning)`;

/** All of a plan in one line. */
export const sumUpPlan = (report: PlanReport | LeverPlanReport): string =>
  `${nameCount(report.bars, 'bar')}, ${countMoves(report)}, ${verdict(report)}`;

/** How hard it is, and why. */
const describeDifficulty = ({ summary: { difficulty } }: PlanReport | LeverPlanReport): readonly string[] => [
  `difficulty: ${GRADE_WORDS[difficulty.grade]}`,
  ...difficulty.reasons.map((reason) => `  ${oneLine(reason)}`),
];

/** Where the part tells a move elsewhere stands beside it. */
const tabulateMoves = (moves: PlanReport['moves']): readonly string[] => {
  const isAsPlanned = moves.every(({ told }) => told === null);
  const rows = moves.map(({ barName, beat, change, foot, told }) => [
    ...[barName, formatBeatText(beat), change, foot],
    ...(isAsPlanned ? [] : [told === null ? '' : namePlaceInBar(told.barName, told.beat)]),
  ]);
  return tabulate(['bar', 'beat', 'change', 'foot', ...(isAsPlanned ? [] : ['told in the part'])], rows);
};

const describePedals = (report: PlanReport): readonly string[] => [
  report.setting,
  ...tabulateMoves(report.moves),
  ...describeFindings(report.findings),
  ...tabulate(
    ['bar', 'beat', 'written', 'played as'],
    report.respellings.map(({ barName, at, from, to }) => [barName, formatBeatText(at.beat), from, to]),
  ),
  ...report.suggestions.map(describeSuggestion),
  ...describeDifficulty(report),
  ...describeRemarks(report.remarks),
  sumUpPlan(report),
];

const describeTunings = ({ tunings }: LeverPlanReport): readonly string[] => {
  const { heads, rows } = tabulateTunings(tunings);
  return tabulate(heads, rows);
};

/** The times of playing at which a change is made, where it is not made at each. */
const ONLY_AT = { first: 'only the first time', later: 'not the first time' } as const;

const tabulateChanges = (moves: LeverPlanReport['moves']): readonly string[] => {
  const isEachTime = moves.every(({ onlyAt }) => onlyAt === null);
  const rows = moves.map(({ barName, beat, change, hand, onlyAt }) => [
    ...[barName, formatBeatText(beat), change, hand],
    ...(isEachTime ? [] : [onlyAt === null ? '' : ONLY_AT[onlyAt]]),
  ]);
  return tabulate(['bar', 'beat', 'change', 'hand', ...(isEachTime ? [] : ['when'])], rows);
};

const describeLevers = (report: LeverPlanReport): readonly string[] => [
  `${oneLine(report.instrument)}, tuned in ${report.tuning}`,
  nameLeversUp(report.levers),
  ...tabulateChanges(report.moves),
  ...describeFindings(report.findings),
  ...describeTunings(report),
  ...describeDifficulty(report),
  ...describeRemarks(report.remarks),
  sumUpPlan(report),
];

/** The plan of either harp for the user to read. */
export const describePlan = (report: PlanReport | LeverPlanReport): readonly string[] =>
  report.harp === 'pedal' ? describePedals(report) : describeLevers(report);
