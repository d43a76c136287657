import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { type PageLayout, unitOf } from './breaks/page-layout.ts';

/** Who decides where systems and pages end: Verovio, the document, or the document for systems alone. */
export type BreakMode = 'auto' | 'encoded' | 'line';

/** Verovio broke down over a score. It is in no known state: a new engraver is needed for the next one. */
export class EngraverError extends Error {}

/** Lays scores out; each call starts from nothing that an earlier score left behind. */
export interface Engraver {
  /** @returns the score as MEI with the source's note, rest and measure ids, or null where Verovio cannot load it */
  readonly convertToMei: (musicXml: string) => string | null;
  /** @returns one SVG a page, or null where Verovio cannot load it */
  readonly layOut: (mei: string, layout: PageLayout, breaks: BreakMode) => string[] | null;
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
  const guard = <T>(work: () => T): T => {
    try {
      return work();
    } catch (cause) {
      throw new EngraverError('the layout engine broke down', { cause });
    }
  };
  return {
    convertToMei: (musicXml) =>
      guard(() =>
        load(musicXml, 'xml', { breaks: 'none', header: 'none', footer: 'none' })
          ? withoutClock(toolkit.getMEI({ removeIds: false }))
          : null,
      ),
    layOut: (mei, layout, breaks) =>
      guard(() => {
        if (!load(mei, 'mei', { ...pageOptions(layout), breaks })) return null;
        return Array.from({ length: toolkit.getPageCount() }, (_, i) => toolkit.renderToSVG(i + 1));
      }),
  };
};

/** The time of the conversion is left out: ids are made from the text, and the same score is to give the same pages. */
const withoutClock = (mei: string): string => mei.replace(/ isodate="[^"]*"/, '');

const pageOptions = (layout: PageLayout): Record<string, unknown> => ({
  pageWidth: Math.round(layout.widthMm * 10),
  pageHeight: Math.round(layout.heightMm * 10),
  pageMarginLeft: Math.round(layout.marginMm * 10),
  pageMarginRight: Math.round(layout.marginMm * 10),
  pageMarginTop: Math.round(layout.marginMm * 10),
  pageMarginBottom: Math.round(layout.marginMm * 10),
  unit: unitOf(layout),
  header: 'encoded',
  footer: 'encoded',
  font: 'Bravura',
  smuflTextFont: 'none',
  mmOutput: true,
  justifyVertically: true,
  // What is left over goes between the systems: the staves of one harp stay together.
  justificationBraceGroup: 0,
  justificationBracketGroup: 0,
  justificationStaff: 0,
  condense: 'none',
});
