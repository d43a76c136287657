import type { LeverAnnotateReport } from '../../api/lever-report.ts';
import { LEVER_STRINGS } from '../lever-strings.ts';
import { tabulate } from './moves-table.ts';
import type { ReadPart } from './planned-part.ts';

/** The changes of the levers as a table, one a line, under a line of headings. */
export const tabulateLeverMoves = (
  moves: LeverAnnotateReport['moves'],
  { notes, bars }: Pick<ReadPart, 'notes' | 'bars'>,
): string => {
  const nameNote = (id: string | null): string => {
    const note = id === null ? undefined : notes.get(id);
    return note === undefined ? '' : `${note.name}, ${bars[note.bar]!.number}`;
  };
  const rows = moves.map(({ bar, beat, hand, string, to, change, freedBy, neededBy }) => [
    bar,
    beat,
    LEVER_STRINGS.hand[hand],
    string,
    to,
    change,
    nameNote(freedBy),
    nameNote(neededBy),
  ]);
  return tabulate([LEVER_STRINGS.take.columns, ...rows]);
};
