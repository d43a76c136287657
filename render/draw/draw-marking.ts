import type { EngravingOptions } from '../engraving-options.ts';
import type { Pen, SettingToDraw } from '../looks/look.ts';
import { SETTING_LOOKS, type SettingLookName } from '../looks/setting-looks.ts';
import type { Marking, PedalChange } from '../markings/markings.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { glyphPath } from '../text/glyphs.ts';
import { type Drawing, PADDING_VU } from './drawing.ts';
import type { RowItem } from './name-items.ts';
import { CAP_HEIGHT_VU, OVERHANG_VU, setNameRow } from './name-row.ts';

export type MarkingLook = Pick<EngravingOptions, 'settingLook' | 'naming' | 'circleChanged'>;

export const drawMarking = (marking: Marking, look: MarkingLook): Drawing => {
  if (marking.kind === 'change') {
    // Right foot above left (Harp Notation, Sibelius Academy, Helsinki).
    const rows = [marking.right, marking.left].filter((row) => row.length > 0);
    return drawRows(rows.map(changeItems), look.naming);
  }
  const ringed = look.circleChanged ? marking.changed : [];
  return drawSetting({ setting: marking.setting, ringed, naming: look.naming }, look.settingLook);
};

/** A full setting in one of the looks. */
export const drawSetting = (setting: SettingToDraw, look: SettingLookName): Drawing =>
  SETTING_LOOKS[look].draw(setting, PEN);

const changeItems = (changes: readonly PedalChange[]): RowItem[] =>
  changes.map(({ letter, position }) => ({ kind: 'name', letter, position, ringed: false }));

/** From one baseline to the next; farther where names of both rows may be ringed. */
const ROW_VU = 4.6;
const RINGED_ROW_VU = 5.3;

/** Rows of names, the upper row first, centred on one another. */
const drawRows = (rows: readonly (readonly RowItem[])[], naming: NoteNaming): Drawing => {
  const set = rows.map((row) => setNameRow(row, naming));
  const width = Math.max(...set.map((row) => row.widthVu));
  const isRinged = rows.some((row) => row.some((item) => item.kind === 'name' && item.ringed));
  const step = isRinged ? RINGED_ROW_VU : ROW_VU;
  const top = PADDING_VU + OVERHANG_VU + CAP_HEIGHT_VU;
  const bodies = set.map((row, i) => row.at(PADDING_VU + (width - row.widthVu) / 2, top + i * step));
  return {
    box: {
      widthVu: width + 2 * PADDING_VU,
      heightVu: top + (rows.length - 1) * step + OVERHANG_VU + PADDING_VU,
    },
    body: bodies.join(''),
  };
};

const PEN: Pen = { glyph: glyphPath, nameRows: drawRows };
