import type { HarpPlan } from '../../../engine/harp-plan.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { completeEngraving, type EngravingChoice, paperSize } from '../../../render/engraving-options.ts';
import type { EngravedPages } from '../../../render/pages/engrave-pages.ts';
import { VERSION_DATE } from '../../../render/printed/document-date.ts';
import { renderPdf } from '../../../render/printed/pdf.ts';
import { type BoundPages, bindStudyEdition } from '../../../render/study/study-edition.ts';

/** A part of so many pages as the layout would give it, with nothing on them: what binds them does not look inside. */
const emptyPages = (count: number, { widthMm, heightMm }: ReturnType<typeof paperSize>): EngravedPages => ({
  pages: Array.from(
    { length: count },
    () => `<svg xmlns="http://www.w3.org/2000/svg" width="${widthMm}mm" height="${heightMm}mm"></svg>`,
  ),
  characters: new Map(),
  turns: [{ page: 1, bar: 0, free: 'none', seconds: 0 }],
  rehearsals: [{ text: 'A', page: 0, y: 1000 }],
  lines: [{ firstBar: 0, page: 0, y: 500 }],
  missing: [],
  crowded: [{ page: 1, overlaps: 1 }],
  replacedMarkings: 0,
  accidentalsAdded: [],
  breaksGivenUp: false,
  isWhole: false,
  reminders: [],
  ledgerBars: [],
  lettersLeftOut: [],
  cues: { cues: [], without: [] },
});

/** The study edition of a score, without the cost of laying out its music. */
export const bindPart = (score: Score, choice: EngravingChoice = {}, partPages = 1) => {
  const plan = planPedals(score);
  return { plan, ...bindPlanned(score, { kind: 'pedal', plan }, choice, partPages) };
};

/** The same of a part for either harp that is planned. */
export const bindPlanned = (
  score: Score,
  harp: HarpPlan,
  choice: EngravingChoice = {},
  partPages = 1,
  replacedMarkings = 0,
) => {
  const engraving = completeEngraving(choice, harp.kind);
  const engraved = { ...emptyPages(partPages, paperSize(engraving.paper)), replacedMarkings };
  const bound = bindStudyEdition(score, harp, engraving, engraved);
  return { bound, pdf: () => pdfOf(bound, engraving) };
};

const pdfOf = (bound: BoundPages, { paper }: ReturnType<typeof completeEngraving>): Uint8Array =>
  renderPdf(
    bound.pages,
    paperSize(paper),
    { title: 'A study', author: '', date: VERSION_DATE },
    bound.bookmarks,
  );
