import type { HarpPlan, Score } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { paperSize } from '../engraving-options.ts';
import { SVG_UNITS_PER_MM } from '../layout/breaks/page-layout.ts';
import type { Bookmark } from '../pages/bookmarks.ts';
import type { EngravedPages } from '../pages/engrave-pages.ts';
import { makeIdsUnique } from '../pages/unique-ids.ts';
import { type Block, baselineOf, heightOfLines, writeParagraph } from '../sheets/block.ts';
import { fillSheets } from '../sheets/fill-sheets.ts';
import { writeHead } from '../sheets/headings.ts';
import { letteringsOf, type Sheet, sheetOn } from '../sheets/sheet.ts';
import { drawFoot, type Foot, finishSheet, layOver, overlaySheet } from '../sheets/sheet-page.ts';
import { drawWords } from '../sheets/words.ts';
import { mergeCharacters } from '../text/embed-fonts.ts';
import type { FinishedPage } from '../text/finish-page.ts';
import { wordsOf } from '../words/words.ts';
import { type Chapter, writeChaptersAfter, writeChaptersBefore } from './chapters.ts';
import { writeTitleSheet } from './title-sheet.ts';

/** Pages as they are handed out, with the outline of their PDF. */
export interface BoundPages extends EngravedPages {
  readonly bookmarks: readonly Bookmark[];
}

/**
 * Binds a part with what a teacher and a pupil need beside it: title page and contents before it, for levers the tuning
 * sheet; after it charts and tables of what moves, the passages by difficulty, the hard spots, and the findings.
 *
 * What stands before the part takes an even number of pages, so that its pages turn where the layout meant them to.
 *
 * @param engraved the pages of the part
 * @param use in a class set contents and page numbers are those of the set
 */
export const bindStudyEdition = (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  engraved: EngravedPages,
  use: 'alone' | 'in-class-set' = 'alone',
): BoundPages => {
  const sheet = sheetOn(paperSize(engraving.paper), engraving.language);
  const { study } = wordsOf(sheet);
  const title = score.titles.title || score.harp.name;
  const opening = fillSheets(
    { blocks: writeTitleSheet(score, harp, engraving, sheet), repeated: null },
    sheet,
  );
  const chapters = writeChaptersAfter({ score, harp, pages: engraved.pages }, engraving.naming, sheet);
  const first = writeChaptersBefore(harp, engraving.naming, sheet);
  const prepared = first.flatMap(({ sheets }) => sheets);
  const contents = use === 'alone' ? 1 : 0;
  const blank = (opening.length + contents + prepared.length) % 2 === 0 ? [] : [drawBlank(sheet)];
  const before = opening.length + contents + prepared.length + blank.length;
  const entries = [
    ...listEntries(first, opening.length + contents),
    { name: study.part, page: before },
    ...listEntries(chapters, before + engraved.pages.length),
  ];
  const listed = use === 'alone' ? [drawContents(entries, sheet)] : [];
  const front = [...opening, ...listed, ...prepared, ...blank];
  const words = `${title} · ${study.edition}`;
  const count = before + engraved.pages.length + chapters.reduce((sum, { sheets }) => sum + sheets.length, 0);
  // The part has page numbers of its own: out of how many tells these apart.
  const numberOf = (page: number): string => `${page + 1}/${count}`;
  const footOf = (page: number): Foot | null => (use === 'alone' ? { words, page: numberOf(page) } : null);
  const finish = (sheets: readonly string[], start: number): readonly FinishedPage[] =>
    sheets.map((drawing, i) => finishSheet(drawing, sheet, footOf(start + i)));
  const feet = engraved.pages.map((_, i) => {
    const foot = footOf(before + i);
    return overlaySheet(foot === null ? '' : drawFoot(sheet, foot), sheet);
  });
  const made = [
    ...finish(front, 0),
    ...finish(
      chapters.flatMap(({ sheets }) => sheets),
      before + engraved.pages.length,
    ),
  ];
  return {
    ...engraved,
    pages: makeIdsUnique([
      ...made.slice(0, before).map(({ svg }) => svg),
      ...engraved.pages.map((page, i) => layOver(page, feet[i]!.svg)),
      ...made.slice(before).map(({ svg }) => svg),
    ]),
    characters: mergeCharacters([
      engraved.characters,
      ...[...made, ...feet].map(({ characters }) => characters),
    ]),
    missing: [...new Set([...engraved.missing, ...[...made, ...feet].flatMap(({ missing }) => missing)])],
    turns: engraved.turns.map((turn) => ({ ...turn, page: turn.page + before })),
    crowded: engraved.crowded.map((each) => ({ ...each, page: each.page + before })),
    bookmarks: [
      { text: title, page: 0, topMm: 0, level: 1 },
      ...(use === 'alone' ? [markEntry({ name: study.contents, page: opening.length })] : []),
      ...entries.slice(0, first.length + 1).map(markEntry),
      ...engraved.rehearsals.map(({ text, page, y }) => ({
        text,
        page: page + before,
        topMm: y / SVG_UNITS_PER_MM,
        level: 2 as const,
      })),
      ...entries.slice(first.length + 1).map(markEntry),
    ],
  };
};

interface Entry {
  readonly name: string;
  /** Index of the page. */
  readonly page: number;
}

const markEntry = ({ name, page }: Entry): Bookmark => ({ text: name, page, topMm: 0, level: 1 });

/** Where each chapter begins, the first on page `start`. */
const listEntries = (chapters: readonly Chapter[], start: number): readonly Entry[] => {
  let next = start;
  return chapters.map(({ name, sheets }) => {
    const page = next;
    next += sheets.length;
    return { name, page };
  });
};

const drawContents = (entries: readonly Entry[], sheet: Sheet): string => {
  const { text } = letteringsOf(sheet);
  const lines = entries.map(
    ({ name, page }): Block => ({
      heightMm: heightOfLines(1.2, text),
      draw: (x, y) => {
        const baseline = y + baselineOf(0, text);
        return (
          drawWords(name, x, baseline, text) +
          drawWords(`${page + 1}`, x + sheet.widthMm, baseline, text, 'end')
        );
      },
    }),
  );
  return fillSheets(
    { blocks: [...writeHead(wordsOf(sheet).study.contents, null, sheet), ...lines], repeated: null },
    sheet,
  ).join('');
};

const drawBlank = (sheet: Sheet): string => {
  const { aside } = letteringsOf(sheet);
  return fillSheets(
    {
      blocks: writeParagraph(wordsOf(sheet).study.blank, sheet.widthMm, { lettering: aside }),
      repeated: null,
    },
    sheet,
  ).join('');
};
