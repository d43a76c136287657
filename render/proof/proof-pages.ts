import { type LeverProof, ok, type Proof, type Result, type Score } from '../../engine/index.ts';
import {
  checkEngraving,
  completeEngraving,
  type EngravingChoice,
  type EngravingOptions,
  paperSize,
} from '../engraving-options.ts';
import { startDrawer } from '../layout/drawer/drawer.ts';
import type { PageNotes } from '../pages/drawn-score.ts';
import { engraveNotes } from '../pages/engrave-pages.ts';
import { documentMeta } from '../printed/document-meta.ts';
import { renderPdf } from '../printed/pdf.ts';
import { embedFonts } from '../text/embed-fonts.ts';
import { proofNotes } from './report-notes.ts';

/** A proofread part to hand back. */
export interface ProofPages {
  /** SVG documents. */
  readonly pages: readonly string[];
  /** Null where none is asked for. */
  readonly pdf: Uint8Array | null;
}

/**
 * Draws a part with the markings of its file as they are, each fault numbered, each edit beside them, and a list at the
 * end.
 *
 * @returns the pages, or `layout-failed`
 */
export const drawProof = (
  score: Score,
  proof: Proof | LeverProof,
  choice: EngravingChoice,
  form: 'svg' | 'pdf',
): Promise<Result<ProofPages>> =>
  drawWithNotes(score, (engraving) => proofNotes(score, proof, engraving), choice, form);

/** Draws a part with notes about the markings of its file. @returns the pages, or `layout-failed` */
export const drawWithNotes = async (
  score: Score,
  notesFor: (engraving: EngravingOptions) => PageNotes,
  choice: EngravingChoice,
  form: 'svg' | 'pdf',
): Promise<Result<ProofPages>> => {
  const checked = checkEngraving(completeEngraving(choice));
  if (!checked.ok) return checked;
  const engraving = checked.value;
  const engraved = engraveNotes(score, notesFor(engraving), engraving, await startDrawer());
  if (!engraved.ok) return engraved;
  const { pages, characters } = engraved.value;
  const meta = { ...documentMeta(score), language: engraving.language };
  return ok({
    pages: await embedFonts(pages, characters),
    pdf: form === 'pdf' ? renderPdf(pages, paperSize(engraving.paper), meta, []) : null,
  });
};
