import { LETTERS, POSITIONS } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { BoxSize } from '../layout/spaces/placeholder.ts';
import type { Pen, SettingToDraw } from '../looks/look.ts';
import { SETTING_LOOKS, type SettingLookName } from '../looks/setting-looks.ts';
import { type Marking, type PedalChange, returnTime } from '../markings/markings.ts';
import { glyphPath } from '../text/glyphs.ts';
import { wordsOf } from '../words/words.ts';
import { drawRows, ROW_VU } from './draw-rows.ts';
import { type Drawing, PADDING_VU, roundUnits, stackDrawings } from './drawing.ts';
import type { RowItem } from './name-items.ts';
import { CAP_HEIGHT_VU, OVERHANG_VU } from './name-row.ts';

export type MarkingLook = Pick<EngravingOptions, 'settingLook' | 'naming' | 'circleChanged' | 'language'>;

export const drawMarking = (marking: Marking, look: MarkingLook): Drawing => {
  const { times } = wordsOf(look).inWords;
  const later = wordsItem(returnTime(marking, times));
  const back = marking.onReturn.length === 0 ? [] : [[later, ...changeItems(marking.onReturn)]];
  if (marking.kind === 'change') {
    // Right foot above left (Harp Notation, Sibelius Academy, Helsinki).
    const rows = [marking.right, marking.left].filter((row) => row.length > 0);
    const drawn = drawRows([...rows.map(changeItems), ...back], look.naming);
    if (!marking.withNote) return drawn;
    const waiting = rows.map((row) => row.some(({ letter }) => marking.lettersWithNote.includes(letter)));
    return withWedge(drawn, middlesOfRows(waiting));
  }
  // What moves here is seen at once, whatever else the setting tells.
  const ringed = LETTERS.filter(
    (letter) => marking.moved.includes(letter) || (look.circleChanged && marking.changed.includes(letter)),
  );
  const drawn = drawSetting({ setting: marking.setting, ringed, naming: look.naming }, look.settingLook);
  const setting = marking.withNote ? withWedge(drawn, [drawn.box.heightVu / 2]) : drawn;
  const first = marking.firstTimeOnly ? [drawRows([[wordsItem(times.first)]], look.naming)] : [];
  return stackDrawings([...first, setting, ...back.map((row) => drawRows([row], look.naming))]);
};

const wordsItem = (text: string): RowItem => ({ kind: 'words', text });

/** From the letters to the sign, and its size. From the letters of another change it keeps as far as letters do, which is more. */
const BESIDE_SIGN_VU = 0.5;
const SIGN = { width: 1.3, height: 2.4 } as const;

/** The middles of those rows of letters that are asked for. */
const middlesOfRows = (wanted: readonly boolean[]): readonly number[] =>
  wanted.flatMap((isWanted, i) =>
    isWanted ? [PADDING_VU + OVERHANG_VU + CAP_HEIGHT_VU / 2 + i * ROW_VU] : [],
  );

/**
 * A small wedge before what stands under its note: the feet move with the note, not before it.
 *
 * @param middles heights of the wedges: each stands at the letters that it is for
 */
const withWedge = ({ box, body, text }: Drawing, middles: readonly number[]): Drawing => {
  const room = BESIDE_SIGN_VU + SIGN.width;
  const x = PADDING_VU;
  const wedges = middles.map(
    (y) =>
      `<path class="with-note" d="M${roundUnits(x)} ${roundUnits(y - SIGN.height / 2)}` +
      `L${roundUnits(x + SIGN.width)} ${roundUnits(y)}L${roundUnits(x)} ${roundUnits(y + SIGN.height / 2)}Z"/>`,
  );
  return {
    box: { ...box, widthVu: box.widthVu + room },
    text,
    body: `${wedges.join('')}<g transform="translate(${room} 0)">${body}</g>`,
    startVu: room,
  };
};

/** A full setting in one of the looks. */
export const drawSetting = (setting: SettingToDraw, look: SettingLookName): Drawing =>
  SETTING_LOOKS[look].draw(setting, PEN);

const changeItems = (changes: readonly PedalChange[]): RowItem[] =>
  changes.map(({ letter, position }) => ({ kind: 'name', letter, position, ringed: false }));

/** How wide the change of one pedal is at most, and how high. */
export const sizeOfChange = (naming: MarkingLook['naming']): BoxSize => {
  const sizes = LETTERS.flatMap((letter) =>
    POSITIONS.map((position) => drawRows([changeItems([{ letter, position }])], naming).box),
  );
  return {
    widthVu: Math.max(...sizes.map(({ widthVu }) => widthVu)),
    heightVu: Math.max(...sizes.map(({ heightVu }) => heightVu)),
  };
};

const PEN: Pen = { glyph: glyphPath, nameRows: drawRows };
