import { type LeverProof, ok, type Proof, type Result, type Score } from '../../engine/index.ts';
import { checkEngraving, completeEngraving, type EngravingChoice, paperSize } from '../engraving-options.ts';
import { startDrawer } from '../layout/drawer/drawer.ts';
import { engraveNotes } from '../pages/engrave-pages.ts';
import { documentDate } from '../printed/document-date.ts';
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
export const drawProof = async (
  score: Score,
  proof: Proof | LeverProof,
  choice: EngravingChoice,
  form: 'svg' | 'pdf',
): Promise<Result<ProofPages>> => {
  const checked = checkEngraving(completeEngraving(choice));
  if (!checked.ok) return checked;
  const engraving = checked.value;
  const engraved = engraveNotes(score, proofNotes(score, proof, engraving), engraving, await startDrawer());
  if (!engraved.ok) return engraved;
  const { pages, characters } = engraved.value;
  const { title, composer } = score.titles;
  const subject = score.harp.name;
  const meta = {
    ...{ title: title || subject, author: composer, subject, date: documentDate(score) },
    language: engraving.language,
  };
  return ok({
    pages: await embedFonts(pages, characters),
    pdf: form === 'pdf' ? renderPdf(pages, paperSize(engraving.paper), meta, []) : null,
  });
};
