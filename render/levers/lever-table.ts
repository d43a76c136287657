import { type HarpString, LETTERS_FROM_C } from '../../engine/index.ts';
import { drawPath, roundUnits } from '../draw/drawing.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import { nameNote } from '../markings/note-names.ts';
import { textOutline, textWidth } from '../text/glyphs.ts';
import type { LeverChange } from './lever-change.ts';

/** A table to be placed by its top left corner; lengths in vu. */
export interface LeverTable {
  readonly widthVu: number;
  readonly heightVu: number;
  readonly at: (x: number, y: number) => string;
}

const TEXT_VU = 3;
const CAP_VU = TEXT_VU * 0.66;
const CELL_HEIGHT_VU = 3;
const LEAST_CELL_WIDTH_VU = 3.2;
/** On each side of a name at the head of a column. */
const BESIDE_NAME_VU = 0.45;
const LINE_VU = 0.16;

/**
 * The levers by letter and octave, the highest octave above: a triangle that points up where the lever is up, a dash
 * where it is down, nothing where the harp has no lever, and nowhere anything where a pupil is to write it (`up` null).
 */
export const drawLeverTable = (
  { up, levers }: { readonly up: readonly LeverChange[] | null; readonly levers: readonly HarpString[] },
  naming: NoteNaming,
): LeverTable => {
  const names = LETTERS_FROM_C.map((letter) => nameNote(letter, 0, naming).word);
  const cell = Math.max(
    LEAST_CELL_WIDTH_VU,
    ...names.map((name) => textWidth(name, { style: 'regular', sizeUnits: TEXT_VU }) + 2 * BESIDE_NAME_VU),
  );
  const octaves = [...new Set(levers.map(({ octave }) => octave))].reverse();
  const raised = new Set(up?.map(({ string }) => `${string.letter}${string.octave}`));
  const width = cell * (LETTERS_FROM_C.length + 1);
  const height = CELL_HEIGHT_VU * (octaves.length + 1);
  const centre = (column: number): number => cell * (column + 1.5);
  const at = (x: number, y: number): string => {
    const heads = names.map((name, i) => centredText(name, x + centre(i), y));
    const sides = octaves.map((octave, i) =>
      centredText(`${octave}`, x + cell / 2, y + CELL_HEIGHT_VU * (i + 1)),
    );
    const signs = (up === null ? [] : levers).map(({ letter, octave }) => {
      const middle = y + CELL_HEIGHT_VU * (octaves.indexOf(octave) + 1.5);
      const sign = raised.has(`${letter}${octave}`) ? drawUp : drawDown;
      return sign(x + centre(LETTERS_FROM_C.indexOf(letter)), middle);
    });
    return [frame(x, y, cell, width, height), ...heads, ...sides, ...signs].join('');
  };
  return { widthVu: width, heightVu: height, at };
};

const centredText = (text: string, middle: number, top: number): string => {
  const outline = textOutline(text, { style: 'regular', sizeUnits: TEXT_VU });
  const baseline = top + (CELL_HEIGHT_VU + CAP_VU) / 2;
  return drawPath(outline.pathData, middle - outline.width / 2, baseline, 1);
};

const UP_VU = { halfWidth: 1.05, halfHeight: 0.95 };
const DASH_VU = { halfWidth: 0.6, halfHeight: 0.11 };

const drawUp = (x: number, y: number): string => {
  const { halfWidth, halfHeight } = UP_VU;
  const [left, top] = [roundUnits(x - halfWidth), roundUnits(y - halfHeight)];
  return `<path d="M${roundUnits(x)} ${top}L${roundUnits(x + halfWidth)} ${roundUnits(y + halfHeight)}H${left}Z"/>`;
};

const drawDown = (x: number, y: number): string => {
  const { halfWidth, halfHeight } = DASH_VU;
  return (
    `<rect x="${roundUnits(x - halfWidth)}" y="${roundUnits(y - halfHeight)}" ` +
    `width="${2 * halfWidth}" height="${2 * halfHeight}"/>`
  );
};

/** A frame with a line under the letters and one beside the octaves. */
const frame = (x: number, y: number, cell: number, width: number, height: number): string => {
  const [right, bottom] = [roundUnits(x + width), roundUnits(y + height)];
  const [lineX, lineY] = [roundUnits(x + cell), roundUnits(y + CELL_HEIGHT_VU)];
  const d =
    `M${roundUnits(x)} ${roundUnits(y)}H${right}V${bottom}H${roundUnits(x)}Z` +
    `M${roundUnits(x)} ${lineY}H${right}M${lineX} ${roundUnits(y)}V${bottom}`;
  return `<path d="${d}" fill="none" stroke="currentColor" stroke-width="${LINE_VU}"/>`;
};
