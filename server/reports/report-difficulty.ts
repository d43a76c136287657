import type { BySide, Difficulty, Measures } from '../../engine/index.ts';
import type { ReportedDifficulty } from '../api/answers/difficulty.ts';
import type { ToldBars } from './report-notes.ts';

/** Hundredths are finer than anyone plays. */
const rounded = (value: number): number => Math.round(value * 100) / 100;

const roundedSides = ({ left, right }: BySide<number | null>): BySide<number | null> => ({
  left: left === null ? null : rounded(left),
  right: right === null ? null : rounded(right),
});

const reportMeasures = (measures: Measures): ReportedDifficulty['measures'] => ({
  ...measures,
  seconds: rounded(measures.seconds),
  changesPerMinute: rounded(measures.changesPerMinute),
  shortestSpacing: roundedSides(measures.shortestSpacing),
  atThePluck: rounded(measures.atThePluck),
  notesPerSecond: rounded(measures.notesPerSecond),
});

/** What a report tells of how hard a part is. */
export const reportDifficulty = (
  { causes: _causes, ...difficulty }: Difficulty,
  { barNumbers, barNames }: ToldBars,
): ReportedDifficulty => ({
  ...difficulty,
  measures: reportMeasures(difficulty.measures),
  passages: difficulty.passages.map(({ causes: _ofPassage, ...passage }) => ({
    ...passage,
    from: barNumbers[passage.from]!,
    until: barNumbers[passage.until]!,
    fromName: barNames[passage.from]!,
    untilName: barNames[passage.until]!,
    measures: reportMeasures(passage.measures),
  })),
});
