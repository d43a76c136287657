import { type EngravingOptions, paperSize } from '../../engraving-options.ts';

/** The page as it is laid out; lengths in millimetres, before it is enlarged. */
export interface PageLayout {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
  /** Height of one staff, from its lowest to its highest line. */
  readonly staffMm: number;
  /** How many times as large it is printed: 1 but for staves that the layout engine does not draw. */
  readonly enlarged: number;
}

/** Clear of what printers cannot print (common practice, no source). */
const MARGIN_MM = 12;

/** The smallest and the largest staff that the layout engine draws: its unit is 4.5 to 12 (Verovio 6.3.0). */
const DRAWN_STAFF_MM = { least: 3.6, most: 9.6 } as const;

/** Beyond what the layout engine draws, a page of the same proportions is laid out and printed larger or smaller. */
export const pageLayoutOf = ({ paper, staffMm }: Pick<EngravingOptions, 'paper' | 'staffMm'>): PageLayout => {
  const { widthMm, heightMm } = paperSize(paper);
  const drawn = Math.min(DRAWN_STAFF_MM.most, Math.max(DRAWN_STAFF_MM.least, staffMm));
  const enlarged = staffMm / drawn;
  return {
    widthMm: widthMm / enlarged,
    heightMm: heightMm / enlarged,
    marginMm: MARGIN_MM / enlarged,
    staffMm: drawn,
    enlarged,
  };
};

/** Verovio's unit (vu), half a staff space, in tenths of a millimetre: a staff is eight of them high. */
export const unitOf = (layout: PageLayout): number => (layout.staffMm * 10) / 8;

/** SVG coordinates of a Verovio page are tenths of its tenths of a millimetre. */
export const svgUnitsPerVu = (layout: PageLayout): number => unitOf(layout) * 10;

export const SVG_UNITS_PER_MM = 100;
