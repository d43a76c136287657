import { type EngravingOptions, paperSize } from '../../engraving-options.ts';

/** The page as it is laid out; lengths in millimetres. */
export interface PageLayout {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
  /** Height of one staff, from its lowest to its highest line. */
  readonly staffMm: number;
}

/** Clear of what printers cannot print (common practice, no source). */
const MARGIN_MM = 12;

export const pageLayoutOf = ({ paper, staffMm }: EngravingOptions): PageLayout => ({
  ...paperSize(paper),
  marginMm: MARGIN_MM,
  staffMm,
});

/** Verovio's unit (vu), half a staff space, in tenths of a millimetre: a staff is eight of them high. */
export const unitOf = (layout: PageLayout): number => (layout.staffMm * 10) / 8;

/** SVG coordinates of a Verovio page are tenths of its tenths of a millimetre. */
export const svgUnitsPerVu = (layout: PageLayout): number => unitOf(layout) * 10;

export const SVG_UNITS_PER_MM = 100;
