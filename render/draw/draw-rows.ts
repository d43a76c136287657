import type { NoteNaming } from '../markings/note-names.ts';
import { type Drawing, PADDING_VU } from './drawing.ts';
import type { RowItem } from './name-items.ts';
import { CAP_HEIGHT_VU, OVERHANG_VU, setNameRow } from './name-row.ts';

/** From one baseline to the next; farther where names of both rows may be ringed. */
export const ROW_VU = 4.6;
const RINGED_ROW_VU = 5.3;

/** Rows of names, the upper row first, centred on one another or with their beginnings on one line. */
export const drawRows = (
  rows: readonly (readonly RowItem[])[],
  naming: NoteNaming,
  align: 'centre' | 'left' = 'centre',
): Drawing => {
  const set = rows.map((row) => setNameRow(row, naming));
  const width = Math.max(...set.map((row) => row.widthVu));
  const isRinged = rows.some((row) => row.some((item) => item.kind === 'name' && item.ringed));
  const step = isRinged ? RINGED_ROW_VU : ROW_VU;
  const top = PADDING_VU + OVERHANG_VU + CAP_HEIGHT_VU;
  const bodies = set.map((row, i) =>
    row.at(PADDING_VU + (align === 'centre' ? (width - row.widthVu) / 2 : 0), top + i * step),
  );
  return {
    box: {
      widthVu: width + 2 * PADDING_VU,
      heightVu: top + (rows.length - 1) * step + OVERHANG_VU + PADDING_VU,
    },
    body: bodies.join(''),
    text: set.map(({ text }) => text).join(' '),
  };
};
