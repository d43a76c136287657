import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { nameNote, tabulate } from '../../downloads/moves-table.ts';
import type { ReadPart } from '../../planner/planned-part.ts';

/** The changes of the levers as a table, one a line, under a line of headings. */
export const tabulateLeverMoves = (
  moves: LeverPlanReport['moves'],
  part: Pick<ReadPart, 'notes' | 'bars'>,
): string => {
  const rows = moves.map(({ barName, beat, hand, string, to, change, freedBy, neededBy }) => [
    barName,
    beat,
    LEVER_STRINGS.hand[hand],
    string,
    to,
    change,
    nameNote(part, freedBy),
    nameNote(part, neededBy),
  ]);
  return tabulate([LEVER_STRINGS.take.columns, ...rows]);
};
