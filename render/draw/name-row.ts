import type { NoteNaming, PrintedAlter } from '../markings/note-names.ts';
import { glyphPath, textOutline } from '../text/glyphs.ts';
import { drawPath, ringRect, roundUnits, VU_PER_EM } from './drawing.ts';
import { type NameItem, nameOfItem, octaveText, type RowItem, rowText } from './name-items.ts';

/** A row set in vu, to be placed by its left edge and baseline. */
export interface NameRow {
  readonly widthVu: number;
  readonly text: string;
  readonly at: (x: number, baseline: number) => string;
}

/** The em of the letters and the height of their capitals, in vu. */
export const LETTER_SIZE_VU = 5;
export const CAP_HEIGHT_VU = LETTER_SIZE_VU * 0.66;
/** How far an accidental or a ring reaches above the capitals and below the baseline. */
export const OVERHANG_VU = 0.6;

/** Accidentals beside letters are smaller than those of the staff. */
const ACCIDENTAL_SCALE = (VU_PER_EM / 1000) * 0.72;
const AFTER_LETTER_VU = 0.35;
const BETWEEN_NAMES_VU = 1.7;
/** Beside the divider of the feet there is more room than between names. */
const BESIDE_DIVIDER_VU = 0.6;
const ACCIDENTAL_GLYPH: Readonly<Record<PrintedAlter, number>> = {
  [-1]: 0xe260,
  0: 0xe261,
  1: 0xe262,
  2: 0xe263,
};
/** A flat is set by its bowl, which is centred on the glyph's origin line; its stem may rise above the letter. */
const FLAT_BOWL = -60;

export const setNameRow = (items: readonly RowItem[], naming: NoteNaming): NameRow => {
  const pieces: ((left: number, baseline: number) => string)[] = [];
  let x = 0;
  for (const item of items) {
    if (x > 0) x += BETWEEN_NAMES_VU;
    const start = x;
    if (item.kind === 'divider') {
      pieces.push((left, baseline) => drawDivider(left + start + BESIDE_DIVIDER_VU, baseline));
      x += 2 * BESIDE_DIVIDER_VU;
    } else {
      const name = item.kind === 'words' ? drawWords(item.text) : drawName(item, naming);
      const ringed = item.kind === 'name' && item.ringed;
      pieces.push((left, baseline) => {
        const ring = ringed ? nameRing(left + start, name.widthVu, baseline) : '';
        return name.at(left + start, baseline) + ring;
      });
      x += name.widthVu;
    }
  }
  return {
    widthVu: x,
    text: rowText(items, naming),
    at: (left, baseline) => pieces.map((piece) => piece(left, baseline)).join(''),
  };
};

type Piece = Omit<NameRow, 'text'>;

const drawWords = (text: string): Piece => {
  const outline = textOutline(text, { style: 'regular', sizeUnits: LETTER_SIZE_VU });
  return { widthVu: outline.width, at: (x, baseline) => drawPath(outline.pathData, x, baseline, 1) };
};

const drawName = (item: NameItem, naming: NoteNaming): Piece => {
  const { word, accidental } = nameOfItem(item, naming);
  const octave = octaveText(item);
  const parts = [
    drawBold(word),
    ...(accidental === null ? [] : [drawAccidental(accidental)]),
    ...(octave === '' ? [] : [drawBold(octave)]),
  ];
  const starts = parts.map((_, i) =>
    parts.slice(0, i).reduce((sum, { widthVu }) => sum + widthVu + AFTER_LETTER_VU, 0),
  );
  return {
    widthVu: starts.at(-1)! + parts.at(-1)!.widthVu,
    at: (x, baseline) => parts.map((part, i) => part.at(x + starts[i]!, baseline)).join(''),
  };
};

/** Names of strings and digits, of which there are few. */
const DRAWN = new Map<string, Piece>();

const drawBold = (text: string): Piece => {
  const known = DRAWN.get(text) ?? drawBoldAnew(text);
  DRAWN.set(text, known);
  return known;
};

const drawBoldAnew = (text: string): Piece => {
  const outline = textOutline(text, { style: 'bold', sizeUnits: LETTER_SIZE_VU });
  return { widthVu: outline.width, at: (x, baseline) => drawPath(outline.pathData, x, baseline, 1) };
};

const drawAccidental = (accidental: PrintedAlter): Piece => {
  const glyph = glyphPath(ACCIDENTAL_GLYPH[accidental]);
  const middle = accidental === -1 ? FLAT_BOWL : (glyph.box.y0 + glyph.box.y1) / 2;
  const raise = CAP_HEIGHT_VU / 2 + middle * ACCIDENTAL_SCALE;
  return {
    widthVu: (glyph.box.x1 - glyph.box.x0) * ACCIDENTAL_SCALE,
    at: (x, baseline) =>
      drawPath(glyph.pathData, x - glyph.box.x0 * ACCIDENTAL_SCALE, baseline - raise, ACCIDENTAL_SCALE),
  };
};

const drawDivider = (x: number, baseline: number): string =>
  `<path d="M${roundUnits(x)} ${roundUnits(baseline - CAP_HEIGHT_VU - OVERHANG_VU)}V${roundUnits(baseline + OVERHANG_VU)}" ` +
  `fill="none" stroke="currentColor" stroke-width="0.3"/>`;

/** Half the gap between names, less so much that the rings of neighbours stand clear of each other. */
const RING_SIDE_VU = BETWEEN_NAMES_VU / 2 - 0.35;

const nameRing = (x: number, widthVu: number, baseline: number): string =>
  ringRect(
    x - RING_SIDE_VU,
    baseline - CAP_HEIGHT_VU - OVERHANG_VU,
    widthVu + 2 * RING_SIDE_VU,
    CAP_HEIGHT_VU + 2 * OVERHANG_VU,
  );
