import { FEET, type Setting } from '../../engine/harp/setting.ts';
import type { Letter } from '../../engine/music/pitch.ts';
import type { EngravingOptions, NoteNaming } from '../engraving-options.ts';
import type { Marking, PedalChange } from '../markings/markings.ts';
import { type Art, PADDING_VU } from './art.ts';
import { drawDiagram } from './diagram.ts';
import { CAP_HEIGHT_VU, OVERHANG_VU, type RowItem, setNameRow } from './name-row.ts';

export type MarkingLook = Pick<EngravingOptions, 'settingLook' | 'naming' | 'ringChanged'>;

export const drawMarking = (marking: Marking, look: MarkingLook): Art => {
  if (marking.kind === 'change') {
    // Right foot above left (Harp Notation, Sibelius Academy, Helsinki).
    const rows = [marking.right, marking.left].filter((row) => row.length > 0);
    return drawRows(rows.map(changeItems), look.naming);
  }
  const ringed = look.ringChanged ? marking.changed : [];
  if (look.settingLook === 'diagram') return drawDiagram(marking.setting, ringed);
  const [left, right] = [FEET.left, FEET.right].map((foot) => settingItems(foot, marking.setting, ringed));
  const rows =
    look.settingLook === 'letters-one-row'
      ? [[...left!, { kind: 'divider' as const }, ...right!]]
      : [right!, left!];
  return drawRows(rows, look.naming);
};

const changeItems = (changes: readonly PedalChange[]): RowItem[] =>
  changes.map(({ letter, position }) => ({ kind: 'name', letter, position, ringed: false }));

const settingItems = (letters: readonly Letter[], setting: Setting, ringed: readonly Letter[]): RowItem[] =>
  letters.map((letter) => ({
    kind: 'name',
    letter,
    position: setting[letter],
    ringed: ringed.includes(letter),
  }));

/** From one baseline to the next; farther where names of both rows may be ringed. */
const ROW_VU = 4.6;
const RINGED_ROW_VU = 5.3;

/** Rows of names, the upper row first, centred on one another. */
const drawRows = (rows: readonly (readonly RowItem[])[], naming: NoteNaming): Art => {
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
