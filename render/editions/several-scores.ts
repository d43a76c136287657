import { ok, type Remark, type Result } from '../../engine/index.ts';
import type { AnnotateForm, Annotation } from '../annotation.ts';
import { paperSize } from '../engraving-options.ts';
import type { Drawer } from '../layout/drawer/drawer.ts';
import { workOut } from '../layout/stepwise.ts';
import { bindMovements, type DrawnMovement, pagesWithBlank } from '../movements/bind-movements.ts';
import type { PlannedHarp } from '../pages/drawn-score.ts';
import { engraveTogether } from '../pages/engrave-pages.ts';
import { readBookmarks } from '../printed/bookmarks.ts';
import { documentMeta } from '../printed/document-meta.ts';
import { renderPdf } from '../printed/pdf.ts';
import { layoutRemarks } from '../remarks.ts';
import { embedFonts } from '../text/embed-fonts.ts';
import { wordsOf } from '../words/words.ts';
import { describeScore } from './describe-score.ts';
import { drawAlone } from './draw-edition.ts';

/** Movements bound as one. */
export interface PrintedMovements {
  readonly pdf: Uint8Array;
  /** What is known of each; its pages stand in the PDF, and are numbered through. */
  readonly movements: readonly Annotation[];
}

/** The pages of a score of several harps. */
export interface HarpScore extends Pick<Annotation, 'pages' | 'pdf'> {
  /** What the user should know about these pages; what is known of each harp is told with its part. */
  readonly remarks: readonly Remark[];
}

/** As `Annotator.engraveTogether`. */
export const drawTogether = async (
  parts: readonly PlannedHarp[],
  form: Exclude<AnnotateForm, 'plan'>,
  drawer: Drawer,
): Promise<Result<HarpScore>> => {
  const { engraving, score } = parts[0]!;
  const engraved = engraveTogether(parts, engraving, drawer);
  if (!engraved.ok) return engraved;
  const { pages, characters } = engraved.value;
  const subject = parts
    .map((part) => part.score.harp.name)
    .filter((name) => name !== '')
    .join(', ');
  const meta = { ...documentMeta(score, subject), language: engraving.language };
  const bookmarks = readBookmarks(meta.title, score, engraved.value, wordsOf(engraving));
  return ok({
    pages: await embedFonts(pages, characters),
    pdf: form === 'pdf' ? renderPdf(pages, paperSize(engraving.paper), meta, bookmarks) : null,
    remarks: layoutRemarks(score, engraved.value, engraving),
  });
};

/** As `Annotator.engraveMovements`. */
export const drawMovements = async (
  planned: readonly PlannedHarp[],
  drawer: Drawer,
): Promise<Result<PrintedMovements>> => {
  const [first] = planned;
  const drawn: DrawnMovement[] = [];
  const movements: Annotation[] = [];
  let pagesBefore = 0;
  for (const { engraving, plan, score } of planned) {
    const made = workOut(drawAlone(score, plan, engraving, drawer, { pagesBefore }));
    if (!made.ok) return made;
    const { bookmarks, characters, pages, remarks, turns } = made.value;
    drawn.push({ title: score.titles.subtitle, pages, characters, bookmarks });
    const told = { remarks: [...score.remarks, ...remarks], turns, pages, pdf: null };
    movements.push({ ...describeScore(score, plan, engraving), ...told });
    pagesBefore += pagesWithBlank(pages.length);
  }
  const { pages, bookmarks } = bindMovements(drawn, first!.engraving);
  const { engraving, score } = first!;
  return ok({
    movements,
    pdf: renderPdf(
      pages,
      paperSize(engraving.paper),
      { ...documentMeta(score), language: engraving.language },
      bookmarks,
    ),
  });
};
