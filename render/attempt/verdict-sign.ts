import { isPosition, nameLever, type Stated, type StatedPedal, type Verdict } from '../../engine/index.ts';
import { drawRows } from '../draw/draw-rows.ts';
import { type Drawing, PADDING_VU, roundUnits } from '../draw/drawing.ts';
import { type RowItem, settingItems } from '../draw/name-items.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { textOutline } from '../text/glyphs.ts';

/** A verdict is told by its shape; the colour says it once more, dark enough for small signs on white. */
const SIGNS: Readonly<Record<Verdict, { readonly colour: string; readonly path: string }>> = {
  right: { colour: '#1a7f37', path: 'M0.3 2.1L1.5 3.5L3.7 0.5' },
  'better-place': { colour: '#8a5a00', path: 'M0.3 2H3.5M2.2 0.5L3.7 2L2.2 3.5' },
  wrong: { colour: '#c4161c', path: 'M0.5 0.5L3.5 3.5M3.5 0.5L0.5 3.5' },
  missing: { colour: '#c4161c', path: 'M0.4 3.5L2 0.5L3.6 3.5' },
  // In brackets stands what could as well be left out.
  needless: { colour: '#6639ba', path: 'M1.1 0.3Q-0.3 2 1.1 3.7M2.9 0.3Q4.3 2 2.9 3.7' },
};

const SIGN_VU = 4;
const STROKE_VU = 0.55;
const NUMBER_VU = 3.2;
const GAP_VU = 0.5;

/** A sign, with the number of its comment. */
export const drawVerdict = (verdict: Verdict, number: number | null): Drawing => {
  const { colour, path } = SIGNS[verdict];
  const outline = number === null ? null : textOutline(`${number}`, { style: 'bold', sizeUnits: NUMBER_VU });
  const stroke = `<path d="${path}" fill="none" stroke="${colour}" stroke-width="${STROKE_VU}" transform="translate(${PADDING_VU} ${PADDING_VU})"/>`;
  const x = roundUnits(PADDING_VU + SIGN_VU + GAP_VU);
  const baseline = roundUnits(PADDING_VU + SIGN_VU - (SIGN_VU - 0.66 * NUMBER_VU) / 2);
  const figure =
    outline === null
      ? ''
      : `<path fill="${colour}" transform="translate(${x} ${baseline})" d="${outline.pathData}"/>`;
  return {
    box: {
      widthVu: SIGN_VU + (outline === null ? 0 : GAP_VU + outline.width) + 2 * PADDING_VU,
      heightVu: SIGN_VU + 2 * PADDING_VU,
    },
    body: stroke + figure,
    text: '',
  };
};

/** What a teacher writes beside the pupil's writing, so that it is taken for neither. */
const INK = '#0b57d0';

/** A sign, and beside it what belongs there. */
export const drawCorrected = (sign: Drawing, stated: readonly Stated[], naming: NoteNaming): Drawing => {
  if (stated.length === 0) return sign;
  const names = drawRows(rowsOf(stated), naming);
  const height = Math.max(sign.box.heightVu, names.box.heightVu);
  const middle = ({ box }: Drawing): number => roundUnits((height - box.heightVu) / 2);
  return {
    box: { widthVu: sign.box.widthVu + names.box.widthVu, heightVu: height },
    body:
      `<g transform="translate(0 ${middle(sign)})">${sign.body}</g>` +
      `<g fill="${INK}" color="${INK}" transform="translate(${roundUnits(sign.box.widthVu)} ${middle(names)})">${names.body}</g>`,
    text: names.text,
  };
};

const ALL_PEDALS = 7;
const LEVERS_IN_ROW = 6;

const rowsOf = (stated: readonly Stated[]): readonly (readonly RowItem[])[] => {
  const pedals = stated.filter((each): each is StatedPedal => 'letter' in each);
  if (pedals.length === ALL_PEDALS) {
    const setting = Object.fromEntries(pedals.map(({ letter, position }) => [letter, position]));
    return [settingItems(setting as Parameters<typeof settingItems>[0], [])];
  }
  const items = stated.map(itemOf);
  const rows = Math.ceil(items.length / LEVERS_IN_ROW);
  return Array.from({ length: rows }, (_, row) =>
    items.slice(row * LEVERS_IN_ROW, (row + 1) * LEVERS_IN_ROW),
  );
};

const itemOf = (each: Stated): RowItem => {
  if ('letter' in each) return { kind: 'name', letter: each.letter, position: each.position, ringed: false };
  const { string, alter } = each;
  return isPosition(alter)
    ? { kind: 'name', ...string, position: alter, ringed: false }
    : { kind: 'words', text: nameLever(string, alter) };
};
