import type { Box } from '../../text/outline.ts';

/**
 * A placeholder is a piece of text of known size that the layout makes room for and that our drawing then replaces.
 *
 * MEI `harm` is the one element for which Verovio 6.3.0 both widens the music and keeps one line a system. The box of
 * the two letters `MM` at font size F (in vu, half staff spaces) is 0.879 F high and 1.7828 F + letter spacing wide;
 * its centre is the text's x and its top lies 0.6617 F above the text's y (measured, see DEVELOPERS.md).
 */
const HEIGHT_PER_FONT_SIZE = 0.879;
const WIDTH_PER_FONT_SIZE = 1.7828;
const TOP_PER_FONT_SIZE = 0.6617;
/** Verovio's default text size, the 100 % of `fontsize`, in vu. */
const DEFAULT_FONT_SIZE = 4.5;

export interface BoxSize {
  readonly widthVu: number;
  readonly heightVu: number;
}

/** Where the layout is to make room. */
export interface PlaceholderAnchor {
  readonly staff: string;
  readonly place: 'above' | 'below';
  /** Placeholders of one row are set on one level; row 1 stands next to the staff, row 4 farthest out. */
  readonly row: 1 | 2 | 3 | 4;
  /** Whether its middle, its left or its right edge stands at the moment. */
  readonly align: 'centre' | 'left' | 'right';
  /** Attributes that tell the moment: `startid="#…"` or `tstamp="…"`. */
  readonly moment: { readonly name: 'startid' | 'tstamp'; readonly value: string };
}

export const placeholderElement = (id: string, anchor: PlaceholderAnchor, box: BoxSize): string => {
  const fontSize = box.heightVu / HEIGHT_PER_FONT_SIZE;
  const percent = (fontSize / DEFAULT_FONT_SIZE) * 100;
  const spacing = box.widthVu - WIDTH_PER_FONT_SIZE * fontSize;
  const { name, value } = anchor.moment;
  return (
    `<harm xml:id="${id}" n="${anchor.row}" staff="${anchor.staff}" place="${anchor.place}" ${name}="${value}">` +
    `<rend${anchor.align === 'centre' ? '' : ` halign="${anchor.align}"`} fontsize="${round(percent)}%" letterspacing="${round(spacing)}">MM</rend></harm>`
  );
};

/** The box of a placeholder whose text stands at x, y, by its middle or an edge; all in SVG units. */
export const placedBox = (
  text: { readonly x: number; readonly y: number; readonly anchor: 'start' | 'middle' | 'end' },
  box: BoxSize,
  unitsPerVu: number,
): Box => {
  const width = box.widthVu * unitsPerVu;
  const x0 = text.x - width * SHARE_BEFORE[text.anchor];
  const y0 = text.y - (box.heightVu / HEIGHT_PER_FONT_SIZE) * TOP_PER_FONT_SIZE * unitsPerVu;
  return { x0, y0, x1: x0 + width, y1: y0 + box.heightVu * unitsPerVu };
};

/** How much of a text's width stands before its x. */
const SHARE_BEFORE = { start: 0, middle: 0.5, end: 1 } as const;

const round = (value: number): string => `${Math.round(value * 1000) / 1000}`;
