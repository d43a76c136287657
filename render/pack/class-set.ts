import { fail, GRADES, ok, type Result } from '../../engine/index.ts';
import { nameSeconds } from '../card/card-words.ts';
import { checkEngraving, completeEngraving, type EngravingChoice, paperSize } from '../engraving-options.ts';
import type { PartFacts } from '../facts/part-facts.ts';
import type { Bookmark } from '../pages/bookmarks.ts';
import { VERSION_DATE } from '../pages/document-date.ts';
import { renderPdf } from '../pages/pdf.ts';
import { makeIdsUnique } from '../pages/unique-ids.ts';
import { type Block, baselineOf, emptySpace, heightOfLines, writeParagraph } from '../sheets/block.ts';
import { fillSheets } from '../sheets/fill-sheets.ts';
import { writeHead, writeHeading } from '../sheets/headings.ts';
import { drawNotesPage } from '../sheets/notes-page.ts';
import { letteringsOf, type Sheet, sheetOn } from '../sheets/sheet.ts';
import { drawFoot, finishSheet, layOver, overlaySheet } from '../sheets/sheet-page.ts';
import { setTable } from '../sheets/table.ts';
import { drawWords, shortenWords } from '../sheets/words.ts';
import { LANGUAGES } from '../words/language.ts';
import { wordsOf } from '../words/words.ts';

/** A piece as it was drawn, to be bound with others. */
export interface ClassPiece {
  readonly facts: PartFacts;
  /** SVG documents without fonts, one a page, without page numbers of a study edition. */
  readonly pages: readonly string[];
  readonly bookmarks: readonly Bookmark[];
}

/** What could not be drawn. */
export interface RefusedPiece {
  readonly name: string;
  readonly reason: string;
}

/** Several pieces bound as one document. */
export interface ClassSet {
  readonly pdf: Uint8Array;
  readonly pageCount: number;
}

/** Some 200 pieces; a page takes 25 ms and its memory. */
const MOST_PAGES = 1_500;

/** A piece at its place. */
interface BoundPiece extends ClassPiece {
  /** Index of its first page. */
  readonly start: number;
}

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
  choice: Pick<EngravingChoice, 'paper' | 'language'> = {},
): Result<ClassSet> => {
  const engraving = checkEngraving(completeEngraving(choice));
  if (!engraving.ok) return engraving;
  const found = pieces.reduce((sum, { pages }) => sum + pages.length, 0);
  if (found > MOST_PAGES) return fail({ code: 'limit-exceeded', what: 'pages', limit: MOST_PAGES, found });
  const { paper, language } = engraving.value;
  const sheet = sheetOn(paperSize(paper), language);
  const { title } = wordsOf(sheet).set;
  // How many pages stand before the pieces does not depend on where these begin.
  const before = evenUp(drawFront(placePieces(pieces, 0), refused, sheet), sheet);
  const placed = placePieces(pieces, before.length);
  const front = evenUp(drawFront(placed, refused, sheet), sheet);
  const numbered = [
    ...front.map((drawing) => ({
      page: finishSheet(drawing, sheet, null).svg,
      words: title,
    })),
    ...placed.flatMap(({ facts, pages }, i) =>
      [...pages, ...(pages.length % 2 === 1 && i < placed.length - 1 ? [notesPage(sheet)] : [])].map(
        (page) => ({
          page,
          words: facts.title,
        }),
      ),
    ),
  ];
  const pages = numbered.map(({ page, words }, i) => {
    const foot = drawFoot(sheet, { words, page: `${i + 1}/${numbered.length}` });
    return layOver(page, overlaySheet(foot, sheet).svg);
  });
  const meta = { title, author: '', date: VERSION_DATE, language: LANGUAGES[language].tag };
  const pdf = renderPdf(makeIdsUnique(pages), sheet.paper, meta, listBookmarks(placed, sheet));
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

const evenUp = (drawings: readonly string[], sheet: Sheet): readonly string[] =>
  drawings.length % 2 === 0 ? drawings : [...drawings, drawNotesPage(sheet)];

const notesPage = (sheet: Sheet): string => finishSheet(drawNotesPage(sheet), sheet, null).svg;

/** Contents with what was refused, then the table of difficulty. */
const drawFront = (
  placed: readonly BoundPiece[],
  refused: readonly RefusedPiece[],
  sheet: Sheet,
): readonly string[] => {
  const { text } = letteringsOf(sheet);
  const { set: words, study } = wordsOf(sheet);
  const told = refused.flatMap(({ name, reason }) =>
    writeParagraph(`${name}: ${reason}`, sheet.widthMm, {
      lettering: text,
      indentMm: 1.2 * sheet.emMm,
      mark: '•',
    }),
  );
  const contents = [
    ...writeHead(words.contents, null, sheet),
    ...placed.flatMap((piece) => listPiece(piece, sheet)),
    ...(told.length === 0 ? [] : [...writeHeading(words.refused, sheet), ...told]),
  ];
  const { head, rows } = tableOfDifficulty(placed, sheet);
  const table = [
    ...writeHead(words.difficulty, words.difficultyLegend(study.ownScale), sheet),
    head,
    ...rows,
  ];
  return [
    ...fillSheets({ blocks: contents, repeated: null }, sheet),
    ...fillSheets({ blocks: table, repeated: head }, sheet),
  ];
};

/** A piece and its chapters with their pages. */
const listPiece = ({ facts, bookmarks, start }: BoundPiece, sheet: Sheet): readonly Block[] => {
  const { text, strong } = letteringsOf(sheet);
  const chapters = chaptersOf(bookmarks);
  const entry = (
    name: string,
    page: number,
    lettering: typeof text | typeof strong,
    indentMm: number,
  ): Block => ({
    heightMm: heightOfLines(1.2, lettering),
    draw: (x, y) => {
      const baseline = y + baselineOf(0, lettering);
      const room = sheet.widthMm - indentMm - 4 * sheet.emMm;
      return (
        drawWords(shortenWords(name, room, lettering), x + indentMm, baseline, lettering) +
        drawWords(`${page + 1}`, x + sheet.widthMm, baseline, lettering, 'end')
      );
    },
  });
  return [
    entry(facts.title, start, strong, 0),
    ...chapters.map(({ text: name, page }) => entry(name, start + page, text, 1.5 * sheet.emMm)),
    emptySpace(0.3 * sheet.emMm),
  ];
};

/** What a piece has beside its first page: the chapters of a study edition. */
const chaptersOf = (bookmarks: readonly Bookmark[]): readonly Bookmark[] =>
  bookmarks.filter(({ level }) => level === 1).slice(1);

const listBookmarks = (placed: readonly BoundPiece[], sheet: Sheet): readonly Bookmark[] => [
  { text: wordsOf(sheet).set.contents, page: 0, topMm: 0, level: 1 },
  ...placed.flatMap(({ facts, bookmarks, start }): readonly Bookmark[] => [
    { text: facts.title, page: start, topMm: 0, level: 1 },
    ...chaptersOf(bookmarks).map((each): Bookmark => ({ ...each, page: start + each.page, level: 2 })),
  ]),
];

/** The easiest first; of one grade those with fewer changes a minute. */
export const sortByDifficulty = <P extends Pick<ClassPiece, 'facts'>>(pieces: readonly P[]): readonly P[] =>
  pieces.toSorted(
    ({ facts: a }, { facts: b }) =>
      GRADES.indexOf(a.grade) - GRADES.indexOf(b.grade) || a.changesPerMinute - b.changesPerMinute,
  );

const tableOfDifficulty = (placed: readonly BoundPiece[], sheet: Sheet) => {
  const { set, study, difficulty } = wordsOf(sheet);
  const { page, grade, changes, perMinute, length, piece } = set.heads;
  return setTable(
    {
      heads: [page, grade, changes, perMinute, length, piece],
      rows: sortByDifficulty(placed).map(({ facts, start }) => [
        `${start + 1}`,
        difficulty.grades[facts.grade],
        `${facts.changes}`,
        study.rate(facts.changesPerMinute),
        nameSeconds(facts.seconds),
        facts.title,
      ]),
    },
    sheet,
  );
};
