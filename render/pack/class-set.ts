import { fail, ok, type Result } from '../../engine/index.ts';
import { checkEngraving, completeEngraving, type EngravingChoice, paperSize } from '../engraving-options.ts';
import type { Bookmark } from '../printed/bookmarks.ts';
import { VERSION_DATE } from '../printed/document-date.ts';
import { renderPdf } from '../printed/pdf.ts';
import { makeIdsUnique } from '../printed/unique-ids.ts';
import { drawNotesPage } from '../sheets/notes-page.ts';
import { type Sheet, sheetOn } from '../sheets/sheet.ts';
import { drawFoot, finishSheet, layOver, overlaySheet } from '../sheets/sheet-page.ts';
import { wordsOf } from '../words/words.ts';
import {
  type BoundPiece,
  type ClassPiece,
  chaptersOf,
  drawFront,
  type FrontSheets,
  type RefusedPiece,
} from './front-sheets.ts';

/** Several pieces bound as one document. */
export interface ClassSet {
  readonly pdf: Uint8Array;
  readonly pageCount: number;
}

/** What a set is called, and how it is written; the language's own words where it has no title. */
export type ClassSetLook = Pick<EngravingChoice, 'paper' | 'language' | 'naming'> & {
  readonly title?: string;
};

/** Some 200 pieces; a page takes 25 ms and its memory. */
const MOST_PAGES = 1_500;

/**
 * Binds several pieces into one set: contents and a table of difficulty before them, page numbers through. Each piece
 * begins on a right-hand page, so that its pages turn where the layout meant them to.
 *
 * @param pieces at least one, all on the paper that is chosen
 * @returns the PDF, `unsupported` for a paper that cannot be drawn on, or `limit-exceeded`
 */
export const bindClassSet = (
  pieces: readonly ClassPiece[],
  refused: readonly RefusedPiece[],
  { title: wanted, ...choice }: ClassSetLook = {},
): Result<ClassSet> => {
  const engraving = checkEngraving(completeEngraving(choice));
  if (!engraving.ok) return engraving;
  const found = pieces.reduce((sum, { pages }) => sum + pages.length, 0);
  if (found > MOST_PAGES) return fail({ code: 'limit-exceeded', what: 'pages', limit: MOST_PAGES, found });
  const { paper, language, naming } = engraving.value;
  const sheet = sheetOn(paperSize(paper), language);
  const title = wanted ?? wordsOf(sheet).set.title;
  const look = { sheet, naming, title };
  // How many pages stand before the pieces does not depend on where these begin.
  const before = drawFront(placePieces(pieces, 0), refused, look);
  const placed = placePieces(pieces, before.sheets.length);
  const front = drawFront(placed, refused, look);
  const numbered = [
    ...front.sheets.map((drawing) => ({
      page: finishSheet(drawing, sheet, null).svg,
      words: title,
    })),
    ...placed.flatMap(({ facts, pages }, i) =>
      [...pages, ...(pages.length % 2 === 1 && i < placed.length - 1 ? [notesPage(sheet)] : [])].map(
        (page) => ({
          page,
          words: facts.name,
        }),
      ),
    ),
  ];
  const pages = numbered.map(({ page, words }, i) => {
    const foot = drawFoot(sheet, { words, page: `${i + 1}/${numbered.length}` });
    return layOver(page, overlaySheet(foot, sheet).svg);
  });
  const meta = { title, author: '', date: VERSION_DATE, language };
  const pdf = renderPdf(makeIdsUnique(pages), sheet.paper, meta, listBookmarks(front, placed, sheet));
  return ok({ pdf, pageCount: pages.length });
};

const placePieces = (pieces: readonly ClassPiece[], first: number): readonly BoundPiece[] => {
  let start = first;
  return pieces.map((piece) => {
    const own = start;
    start += piece.pages.length + (piece.pages.length % 2);
    return { ...piece, start: own };
  });
};

const notesPage = (sheet: Sheet): string => finishSheet(drawNotesPage(sheet), sheet, null).svg;

const listBookmarks = (
  { readings }: FrontSheets,
  placed: readonly BoundPiece[],
  sheet: Sheet,
): readonly Bookmark[] => [
  { text: wordsOf(sheet).set.contents, page: 0, topMm: 0, level: 1 },
  ...readings.map(({ name, sheet: page, topMm }): Bookmark => ({ text: name, page, topMm, level: 1 })),
  ...placed.flatMap(({ facts, bookmarks, start }): readonly Bookmark[] => [
    { text: facts.name, page: start, topMm: 0, level: 1 },
    ...chaptersOf(bookmarks).map((each): Bookmark => ({ ...each, page: start + each.page, level: 2 })),
  ]),
];
