import { type HarpPlan, ok, type Result, type Score } from '../../engine/index.ts';
import type { AnnotateForm, Annotation } from '../annotation.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { Drawer } from '../layout/drawer/drawer.ts';
import { workOut } from '../layout/stepwise.ts';
import { documentMeta } from '../printed/document-meta.ts';
import { renderPdf } from '../printed/pdf.ts';
import { printingRemarks } from '../remarks.ts';
import { embedFonts } from '../text/embed-fonts.ts';
import { describeScore } from './describe-score.ts';
import { drawCardEdition, drawPart } from './draw-edition.ts';

/** From a score and its plan to the annotated pages. */
export const annotateScore = async (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  form: AnnotateForm,
  obtainDrawer: () => Promise<Drawer>,
): Promise<Result<Annotation>> => {
  const described = describeScore(score, harp, engraving);
  if (form === 'plan') {
    const remarks = [...score.remarks, ...printingRemarks(score, harp, engraving)];
    return ok({ ...described, remarks, turns: [], pages: [], pdf: null });
  }
  const drawn =
    engraving.edition === 'card'
      ? ok(drawCardEdition(score, harp, engraving))
      : workOut(drawPart(score, harp, engraving, await obtainDrawer()));
  if (!drawn.ok) return drawn;
  const { pages, characters, turns, bookmarks, paper, remarks } = drawn.value;
  const { language } = engraving;
  return ok({
    ...described,
    remarks: [...score.remarks, ...remarks],
    turns,
    pages: await embedFonts(pages, characters),
    pdf: form === 'pdf' ? renderPdf(pages, paper, { ...documentMeta(score), language }, bookmarks) : null,
  });
};
