import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';

/** The page as Verovio is asked for it; lengths in millimetres. */
export interface PageLayout {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
  /** Height of one staff, from its lowest to its highest line. */
  readonly staffMm: number;
}

/** A4 portrait with the staff size usual in parts (common practice, no source). */
export const A4_PART: PageLayout = { widthMm: 210, heightMm: 297, marginMm: 12, staffMm: 7 };

/** Verovio's unit, half a staff space, in tenths of a millimetre: a staff is eight of them high. */
export const unitOf = (layout: PageLayout): number => (layout.staffMm * 10) / 8;

/** SVG coordinates of a Verovio page are tenths of its tenths of a millimetre. */
export const svgUnitsPerVu = (layout: PageLayout): number => unitOf(layout) * 10;

/** Lays scores out; each call starts from nothing that an earlier score left behind. */
export interface Engraver {
  /** @returns the score as MEI with the source's note, rest and measure ids, or null where Verovio cannot load it */
  readonly convertToMei: (musicXml: string) => string | null;
  /** @returns one SVG a page, or null where Verovio cannot load it */
  readonly layOut: (mei: string, layout: PageLayout) => string[] | null;
}

/** Starts one Verovio instance (0.2-0.3 s, some 200 MB). It is not reentrant: one score at a time. */
export const startEngraver = async (): Promise<Engraver> => {
  const module = await createVerovioModule();
  // Its warnings are about details of the layout document, which the user never sees.
  enableLog(LOG_OFF, module);
  const toolkit = new VerovioToolkit(module);
  /** A failed load leaves the previous document in the toolkit: nothing may be drawn after one. */
  const load = (data: string, inputFrom: string, options: Record<string, unknown>): boolean => {
    toolkit.resetOptions();
    toolkit.setOptions({ inputFrom, scale: 100, xmlIdChecksum: true, ...options });
    return Boolean(toolkit.loadData(data));
  };
  return {
    convertToMei: (musicXml) =>
      load(musicXml, 'xml', { breaks: 'none', header: 'none', footer: 'none' })
        ? toolkit.getMEI({ removeIds: false })
        : null,
    layOut: (mei, layout) => {
      if (!load(mei, 'mei', pageOptions(layout))) return null;
      return Array.from({ length: toolkit.getPageCount() }, (_, i) => toolkit.renderToSVG(i + 1));
    },
  };
};

const pageOptions = (layout: PageLayout): Record<string, unknown> => ({
  pageWidth: Math.round(layout.widthMm * 10),
  pageHeight: Math.round(layout.heightMm * 10),
  pageMarginLeft: Math.round(layout.marginMm * 10),
  pageMarginRight: Math.round(layout.marginMm * 10),
  pageMarginTop: Math.round(layout.marginMm * 10),
  pageMarginBottom: Math.round(layout.marginMm * 10),
  unit: unitOf(layout),
  breaks: 'auto',
  header: 'encoded',
  footer: 'none',
  font: 'Bravura',
  smuflTextFont: 'none',
  mmOutput: true,
  justifyVertically: true,
  condense: 'none',
});
