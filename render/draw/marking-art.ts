import { FEET, formatChange, type Position } from '../../engine/harp/setting.ts';
import { rationalKey } from '../../engine/music/rational.ts';
import { escapeText } from '../edit.ts';
import { glyphPath, textOutline } from '../glyphs.ts';
import type { BoxSize } from '../layout/placeholder.ts';
import { describeMarking, type Marking, type PedalChange } from '../markings.ts';

/** A drawn marking: the room it takes, and its vectors from the box's top left corner. Lengths in vu. */
export interface MarkingArt {
  readonly box: BoxSize;
  /** SVG elements in coordinates of vu, y downward. */
  readonly body: string;
}

/** The music font's em is four staff spaces. */
const VU_PER_EM = 8;
const UNITS_PER_EM = 1000;
/** Clear space inside the box on every side. */
const PADDING_VU = 0.7;

const LETTER_SIZE_VU = 5;
/** Cap height of the text font in ems: rows are set by it. */
const CAP_HEIGHT_EM = 0.66;
const ROW_VU = 4.4;
/** Accidentals beside letters are smaller than those of the staff. */
const ACCIDENTAL_SCALE = 0.72;
const AFTER_LETTER_VU = 0.35;
const BETWEEN_CHANGES_VU = 1.6;

const PEDAL_GLYPH: Readonly<Record<Position, number>> = { [-1]: 0xe680, 0: 0xe681, 1: 0xe682 };
const DIVIDER_GLYPH = 0xe683;
const ACCIDENTAL_GLYPH: Readonly<Record<Position, number>> = { [-1]: 0xe260, 0: 0xe261, 1: 0xe262 };

export const drawMarking = (marking: Marking): MarkingArt =>
  marking.kind === 'setting'
    ? drawDiagram([...FEET.left, ...FEET.right].map((letter) => marking.setting[letter]))
    : drawChange([marking.right, marking.left].filter((row) => row.length > 0));

/** The diagram of a setting: strokes above, across or below a line, the feet parted by a divider (SMuFL U+E680-U+E683). */
const drawDiagram = (positions: readonly Position[]): MarkingArt => {
  const codes = positions.map((position) => PEDAL_GLYPH[position]);
  codes.splice(FEET.left.length, 0, DIVIDER_GLYPH);
  const glyphs = codes.map(glyphPath);
  const scale = VU_PER_EM / UNITS_PER_EM;
  const top = Math.min(...glyphs.map((glyph) => glyph.box.y0));
  const bottom = Math.max(...glyphs.map((glyph) => glyph.box.y1));
  let x = 0;
  const paths = glyphs.map((glyph) => {
    const path = placedPath(glyph.pathData, PADDING_VU + x * scale, PADDING_VU - top * scale, scale);
    x += glyph.advance;
    return path;
  });
  return {
    box: { widthVu: x * scale + 2 * PADDING_VU, heightVu: (bottom - top) * scale + 2 * PADDING_VU },
    body: paths.join(''),
  };
};

/** Rows of changes, the upper row first, each change a letter and its accidental; rows are centred. */
const drawChange = (rows: readonly (readonly PedalChange[])[]): MarkingArt => {
  const drawn = rows.map(drawRow);
  const width = Math.max(...drawn.map((row) => row.width));
  const body = drawn.map((row, i) =>
    row.at(
      PADDING_VU + (width - row.width) / 2,
      PADDING_VU + LETTER_SIZE_VU * CAP_HEIGHT_EM + i * ROW_VU + ASCENT_VU,
    ),
  );
  return {
    box: {
      widthVu: width + 2 * PADDING_VU,
      heightVu:
        LETTER_SIZE_VU * CAP_HEIGHT_EM + (rows.length - 1) * ROW_VU + ASCENT_VU + DESCENT_VU + 2 * PADDING_VU,
    },
    body: body.join(''),
  };
};

/** How far an accidental reaches above the letter's top and below its foot. */
const ASCENT_VU = 0.6;
const DESCENT_VU = 0.6;

interface DrawnRow {
  readonly width: number;
  /** @param x left edge @param y baseline */
  readonly at: (x: number, y: number) => string;
}

const drawRow = (changes: readonly PedalChange[]): DrawnRow => {
  const pieces: {
    readonly path: string;
    readonly x: number;
    readonly raise: number;
    readonly scale: number;
  }[] = [];
  const scale = (VU_PER_EM / UNITS_PER_EM) * ACCIDENTAL_SCALE;
  let x = 0;
  for (const { letter, position } of changes) {
    if (x > 0) x += BETWEEN_CHANGES_VU;
    const outline = textOutline(letter, { style: 'bold', sizeUnits: LETTER_SIZE_VU });
    pieces.push({ path: outline.pathData, x, raise: 0, scale: 1 });
    x += outline.width + AFTER_LETTER_VU;
    const glyph = glyphPath(ACCIDENTAL_GLYPH[position]);
    const middle = position === -1 ? FLAT_BOWL : (glyph.box.y0 + glyph.box.y1) / 2;
    pieces.push({
      path: glyph.pathData,
      x: x - glyph.box.x0 * scale,
      raise: (LETTER_SIZE_VU * CAP_HEIGHT_EM) / 2 + middle * scale,
      scale,
    });
    x += (glyph.box.x1 - glyph.box.x0) * scale;
  }
  return {
    width: x,
    at: (left, baseline) =>
      pieces
        .map((piece) => placedPath(piece.path, left + piece.x, baseline - piece.raise, piece.scale))
        .join(''),
  };
};

/** A flat is set by its bowl, which is centred on the glyph's origin line; its stem may rise above the letter. */
const FLAT_BOWL = -60;

const placedPath = (pathData: string, x: number, y: number, scale: number): string => {
  const zoom = scale === 1 ? '' : ` scale(${round(scale)})`;
  return `<path transform="translate(${round(x)} ${round(y)})${zoom}" d="${pathData}"/>`;
};

const round = (value: number): number => Math.round(value * 10000) / 10000;

/**
 * The marking as a group on the page, with what a reader of the picture or of the code needs to know about it.
 *
 * @param corner top left corner of the box in SVG units
 */
export const markingGroup = (
  marking: Marking,
  barNumber: string,
  art: MarkingArt,
  corner: { readonly x: number; readonly y: number },
  unitsPerVu: number,
): string => {
  const pedals =
    marking.kind === 'setting'
      ? [...FEET.left, ...FEET.right].map((letter) => formatChange(letter, marking.setting[letter]))
      : [...marking.left, ...marking.right].map(({ letter, position }) => formatChange(letter, position));
  return (
    `<g id="${marking.id}" class="pedal-marking pedal-${marking.kind}" data-kind="${marking.kind}" data-pedals="${pedals.join(' ')}" ` +
    `data-bar="${escapeText(barNumber)}" data-bar-index="${marking.bar}" data-beat="${rationalKey(marking.beat)}" role="img" ` +
    `transform="translate(${round(corner.x)} ${round(corner.y)}) scale(${round(unitsPerVu)})">` +
    `<title>${escapeText(describeMarking(marking))}</title>${art.body}</g>`
  );
};
