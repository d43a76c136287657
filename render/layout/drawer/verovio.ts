import { type PageLayout, unitOf } from '../breaks/page-layout.ts';
import type { DrawingTask, Drawn } from './drawing-task.ts';

/** Verovio broke down over a score. It is in no known state: a new engraver is needed for the next one. */
export class EngraverError extends Error {}

/** Lays scores out; each call starts from nothing that an earlier score left behind. */
export interface Engraver {
  /** Is told what it will be asked for, in that order: another thread that is free may begin at the end. */
  readonly expect: (tasks: readonly DrawingTask[]) => void;
  /** Whether there may be such a thread. */
  readonly isHelped: boolean;
  /** @returns the score as MEI with the source's note, rest and measure ids, or null where Verovio cannot load it */
  readonly convertToMei: (musicXml: string) => string | null;
  /** @returns the whole document as one line of any length under its heading, or null where Verovio cannot load it */
  readonly layOutUnbroken: (mei: string, layout: PageLayout) => string | null;
  /**
   * Draws pages of a document, each as high as what it holds; the first bears the heading. Only the pages that are drawn
   * are laid out.
   *
   * @param mei a document with page breaks
   * @param pages indices of the pages wanted; all without it
   * @param apartVu how much farther apart the staves stand than usual
   * @returns their SVGs, or null where Verovio cannot load the document
   */
  readonly drawPages: (mei: string, layout: PageLayout, pages?: readonly number[], apartVu?: number) => Drawn;
}

/** Starts one Verovio instance (0.2-0.3 s, some 200 MB). It is not reentrant: one score at a time. */
export const startEngraver = async (): Promise<Engraver> => {
  // Loaded when it is wanted: 7 MB that a plan does without.
  const [{ enableLog, LOG_OFF, VerovioToolkit }, { default: createVerovioModule }] = await Promise.all([
    import('verovio/esm'),
    import('verovio/wasm'),
  ]);
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
    expect: () => {},
    isHelped: false,
    convertToMei: (musicXml) =>
      guard(() =>
        load(musicXml, 'xml', { breaks: 'none', header: 'none', footer: 'none' })
          ? withoutClock(toolkit.getMEI({ removeIds: false }))
          : null,
      ),
    layOutUnbroken: (mei, layout) =>
      guard(() =>
        load(mei, 'mei', { ...pageOptions(layout), breaks: 'none' }) ? toolkit.renderToSVG(1) : null,
      ),
    drawPages: (mei, layout, pages, apartVu = 0) =>
      guard(() => {
        if (!load(mei, 'mei', { ...pageOptions(layout), ...stavesApart(apartVu), breaks: 'encoded' }))
          return null;
        const all = Array.from({ length: toolkit.getPageCount() }, (_, i) => i);
        return (pages ?? all).map((page) => toolkit.renderToSVG(page + 1));
      }),
  };
};

/** The time of the conversion is left out: ids are made from the text, and the same score is to give the same pages. */
const withoutClock = (mei: string): string => mei.replace(/ isodate="[^"]*"/, '');

/** From staff to staff, in vu, where the music needs no more: the layout's own. */
const BETWEEN_STAVES_VU = 12;

const stavesApart = (moreVu: number): Record<string, unknown> => ({
  spacingStaff: BETWEEN_STAVES_VU + moreVu,
  spacingBraceGroup: BETWEEN_STAVES_VU + moreVu,
  spacingBracketGroup: BETWEEN_STAVES_VU + moreVu,
});

const pageOptions = (layout: PageLayout): Record<string, unknown> => ({
  pageWidth: Math.round(layout.widthMm * 10),
  pageHeight: Math.round(layout.heightMm * 10),
  pageMarginLeft: Math.round(layout.marginMm * 10),
  pageMarginRight: Math.round(layout.marginMm * 10),
  pageMarginTop: Math.round(layout.marginMm * 10),
  pageMarginBottom: Math.round(layout.marginMm * 10),
  unit: unitOf(layout),
  header: 'encoded',
  footer: 'none',
  font: 'Bravura',
  smuflTextFont: 'none',
  mmOutput: true,
  // Without white space between the elements.
  svgFormatRaw: true,
  // A page holds one system and ends with it: where it stands on the paper is ours to say.
  adjustPageHeight: true,
  condense: 'none',
  // The document says which bars have one.
  mnumInterval: 1,
  // The words of a song run into each other where they are set as close as the layout would.
  lyricWordSpace: 2,
  // Its dashes and lines are as thick as beams otherwise.
  lyricLineThickness: 0.15,
});
