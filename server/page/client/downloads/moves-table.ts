import { formatBeat, formatChange } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { PlannedPart, ReadPart } from '../planner/planned-part.ts';

/** Spreadsheets run what begins like a formula; a bar number of a score may begin so. */
const field = (text: string): string => {
  const inert = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
};

/** A table as comma-separated values (RFC 4180), a row a line. */
export const tabulate = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');

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
