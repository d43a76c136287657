import { namePiece, type Score } from '../../engine/index.ts';
import { documentDate } from './document-date.ts';
import type { PdfMeta } from './pdf.ts';

/** What a PDF says of a score. @param subject the harps that it is for; the title where the score has none */
export const documentMeta = (score: Score, subject: string = score.harp.name): PdfMeta => ({
  title: namePiece(score.titles) || subject,
  author: score.titles.composer,
  subject,
  date: documentDate(score),
});
