import { formatChange } from '../../../engine/harp/setting.ts';
import { rationalKey } from '../../../engine/music/rational.ts';
import type { Window } from '../../../engine/plan/model.ts';
import { STRINGS } from '../strings.ts';
import type { PlannedPart } from './planned-part.ts';

/** Spreadsheets run what begins like a formula; a bar number of a score may begin so. */
const field = (text: string): string => {
  const inert = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
};

/** A table as comma-separated values (RFC 4180), a row a line. */
export const tabulate = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.map(field).join(',')}\r\n`).join('');

const nameEnd = (part: PlannedPart, end: Window['after']): string => {
  const note = end === null ? undefined : part.notes.get(end.note);
  return note === undefined ? '' : `${note.name}, ${part.bars[note.bar]!.number}`;
};

/** The moves as a table, one a line, under a line of headings. */
export const tabulateMoves = (part: PlannedPart): string => {
  const rows = part.plan.moves.map((move) => [
    part.bars[move.bar]!.number,
    rationalKey(move.beat),
    STRINGS.foot[move.foot],
    move.letter,
    STRINGS.position(move.from),
    STRINGS.position(move.to),
    formatChange(move.letter, move.to),
    nameEnd(part, move.window.after),
    nameEnd(part, move.window.before),
  ]);
  return tabulate([STRINGS.take.columns, ...rows]);
};
