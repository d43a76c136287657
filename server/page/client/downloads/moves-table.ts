import { formatBeat, formatChange } from '../../../../engine/index.ts';
import { csvLine } from '../../../reports/csv.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { PlannedPart, ReadPart } from '../planner/planned-part.ts';

/** A table as comma-separated values (RFC 4180), a row a line. */
export const tabulate = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${csvLine(row)}\r\n`).join('');

/** A note by its id, with the number of its bar; empty for none. */
export const nameNote = ({ notes, bars }: Pick<ReadPart, 'notes' | 'bars'>, id: string | null): string => {
  const note = id === null ? undefined : notes.get(id);
  return note === undefined ? '' : `${note.name}, ${bars[note.bar]!.name}`;
};

/** The moves as a table, one a line, under a line of headings. */
export const tabulateMoves = (part: PlannedPart): string => {
  const rows = part.plan.moves.map((move) => [
    part.bars[move.bar]!.name,
    formatBeat(move.beat),
    STRINGS.foot[move.foot],
    move.letter,
    STRINGS.position(move.from),
    STRINGS.position(move.to),
    formatChange(move.letter, move.to),
    nameNote(part, move.window.after?.note ?? null),
    nameNote(part, move.window.before?.note ?? null),
  ]);
  return tabulate([STRINGS.take.columns, ...rows]);
};
