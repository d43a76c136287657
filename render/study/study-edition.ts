import type { Plan, Score } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { paperSize } from '../engraving-options.ts';
import { SVG_UNITS_PER_MM } from '../layout/breaks/page-layout.ts';
import { printedBarNumber } from '../markings/bar-number.ts';
import type { Bookmark } from '../pages/bookmarks.ts';
import type { EngravedPages } from '../pages/engrave-pages.ts';
import { makeIdsUnique } from '../pages/unique-ids.ts';
import { type Block, baselineOf, heightOfLines, writeParagraph } from '../sheets/block.ts';
import { fillSheets } from '../sheets/fill-sheets.ts';
import { writeHead } from '../sheets/headings.ts';
import { namePitch } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet, sheetOn } from '../sheets/sheet.ts';
import { drawFoot, finishSheet, overlaySheet } from '../sheets/sheet-page.ts';
import { setTable } from '../sheets/table.ts';
import { drawWords } from '../sheets/words.ts';
import { mergeCharacters } from '../text/embed-fonts.ts';
import type { FinishedPage } from '../text/finish-page.ts';
import { wordsOf } from '../words/words.ts';
import { writeFindings } from './findings-sheet.ts';
import { drawFootwork } from './footwork-line.ts';
import { findHardSpots, writeHardSpot } from './hard-spots.ts';
import { tellMoves } from './move-rows.ts';
import { drawPedalChart } from './pedal-chart.ts';
import { tellCause } from './tell-cause.ts';
import { writeTitleSheet } from './title-sheet.ts';

/** Pages as they are handed out, with the outline of their PDF. */
export interface BoundPages extends EngravedPages {
  readonly bookmarks: readonly Bookmark[];
}

/** A chapter after the part: its name, and its sheets as drawings. */
interface Chapter {
  readonly name: string;
  readonly sheets: readonly string[];
}

/**
 * Binds a part with what a teacher and a pupil need beside it: title page and contents before it; after it the chart of
 * the pedals, the table of moves, the passages by difficulty, and the findings.
 *
 * What stands before the part takes an even number of pages, so that its pages turn where the layout meant them to.
 *
 * @param engraved the pages of the part
 */
export const bindStudyEdition = (
  score: Score,
  plan: Plan,
  engraving: EngravingOptions,
  engraved: EngravedPages,
): BoundPages => {
  const sheet = sheetOn(paperSize(engraving.paper), engraving.language);
  const { study } = wordsOf(sheet);
  const title = score.titles.title || score.harp.name;
  const opening = fillSheets(
    { blocks: writeTitleSheet(score, plan, engraving, sheet), repeated: null },
    sheet,
  );
  const chapters = writeChapters({ score, plan, pages: engraved.pages }, engraving, sheet);
  const blank = opening.length % 2 === 0 ? [drawBlank(sheet)] : [];
  const before = opening.length + 1 + blank.length;
  const starts = chapterStarts(chapters, before + engraved.pages.length);
  const entries = [
    { name: study.part, page: before },
    ...chapters.map(({ name }, i) => ({ name, page: starts[i]! })),
  ];
  const front = [...opening, drawContents(entries, sheet), ...blank];
  const words = `${title} · ${study.edition}`;
  const count = before + engraved.pages.length + chapters.reduce((sum, { sheets }) => sum + sheets.length, 0);
  // The part has page numbers of its own: out of how many tells these apart.
  const numberOf = (page: number): string => `${page + 1}/${count}`;
  const finish = (sheets: readonly string[], first: number): readonly FinishedPage[] =>
    sheets.map((drawing, i) => finishSheet(drawing, sheet, { words, page: numberOf(first + i) }));
  const feet = engraved.pages.map((_, i) =>
    overlaySheet(drawFoot(sheet, { words, page: numberOf(before + i) }), sheet),
  );
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
      { text: study.contents, page: opening.length, topMm: 0, level: 1 },
      ...entries.slice(0, 1).map(({ name, page }) => ({ text: name, page, topMm: 0, level: 1 as const })),
      ...engraved.rehearsals.map(({ text, page, y }) => ({
        text,
        page: page + before,
        topMm: y / SVG_UNITS_PER_MM,
        level: 2 as const,
      })),
      ...entries.slice(1).map(({ name, page }) => ({ text: name, page, topMm: 0, level: 1 as const })),
    ],
  };
};

const layOver = (page: string, overlay: string): string => {
  const end = page.lastIndexOf('</svg>');
  return `${page.slice(0, end)}${overlay}\n${page.slice(end)}`;
};

const chapterStarts = (chapters: readonly Chapter[], first: number): readonly number[] => {
  let page = first;
  return chapters.map(({ sheets }) => {
    const own = page;
    page += sheets.length;
    return own;
  });
};

const writeChapters = (
  music: { readonly score: Score; readonly plan: Plan; readonly pages: readonly string[] },
  engraving: EngravingOptions,
  sheet: Sheet,
): readonly Chapter[] => {
  const { score, plan } = music;
  const { study } = wordsOf(sheet);
  const chapter = (
    name: string,
    legend: string | null,
    blocks: readonly Block[],
    repeated: Block | null = null,
  ) => ({
    name,
    sheets: fillSheets({ blocks: [...writeHead(name, legend, sheet), ...blocks], repeated }, sheet),
  });
  const middleC = namePitch({ letter: 'C', alter: 0, octave: 4 }, engraving.naming);
  const moves = tableOfMoves(score, plan, engraving, sheet);
  const passages = tableOfPassages(score, plan, sheet);
  return [
    chapter(study.chart, study.chartLegend, drawPedalChart(score, plan, engraving.naming, sheet)),
    ...(plan.moves.length === 0
      ? []
      : [chapter(study.footwork, study.footworkLegend, drawFootwork(score, plan, engraving.naming, sheet))]),
    plan.moves.length === 0
      ? chapter(study.table, study.noMoves, [])
      : chapter(
          study.table,
          `${study.tableLegend} ${study.octaves(middleC)}`,
          [moves.head, ...moves.rows],
          moves.head,
        ),
    ...(passages.rows.length === 0
      ? []
      : [chapter(study.passages, study.ownScale, [passages.head, ...passages.rows], passages.head)]),
    writeHardSpots(music, engraving, sheet),
    chapter(study.findings, null, writeFindings(plan, engraving.naming, sheet)),
  ];
};

/** Each spot on sheets of its own. */
const writeHardSpots = (
  music: Parameters<typeof writeHardSpot>[2],
  { naming }: EngravingOptions,
  sheet: Sheet,
): Chapter => {
  const { study } = wordsOf(sheet);
  const spots = findHardSpots(music.plan);
  const legend = spots.length === 0 ? study.noSpots : study.spotsLegend;
  const head = writeHead(study.spots, legend, sheet);
  const sheets = spots.flatMap((spot, i) => {
    const blocks = writeHardSpot(spot, i + 1, music, naming, sheet);
    return fillSheets({ blocks: i === 0 ? [...head, ...blocks] : blocks, repeated: null }, sheet);
  });
  return {
    name: study.spots,
    sheets: spots.length === 0 ? fillSheets({ blocks: head, repeated: null }, sheet) : sheets,
  };
};

/** The columns of the tables, in their order. */
const MOVE_COLUMNS = ['bar', 'beat', 'foot', 'pedal', 'from', 'to', 'lead', 'why'] as const;
const PASSAGE_COLUMNS = ['bars', 'grade', 'moves', 'perMinute', 'why'] as const;

const headsOf = <Column extends string>(
  heads: Readonly<Record<Column, string>>,
  columns: readonly Column[],
): readonly string[] => columns.map((column) => heads[column]);

/** Where no time can be told. */
const NO_LEAD = '–';

const tableOfMoves = (score: Score, plan: Plan, { naming }: EngravingOptions, sheet: Sheet) => {
  const words = wordsOf(sheet);
  return setTable(
    {
      heads: headsOf(words.study.tableHeads, MOVE_COLUMNS),
      rows: tellMoves(score, plan, naming, words).map((row) => [
        row.barNumber,
        row.beat,
        row.foot,
        row.pedal,
        row.from,
        row.to,
        row.leadSeconds === null ? NO_LEAD : words.study.seconds(row.leadSeconds),
        row.why,
      ]),
    },
    sheet,
  );
};

const tableOfPassages = (score: Score, plan: Plan, sheet: Sheet) => {
  const { study, difficulty } = wordsOf(sheet);
  const numberOf = (bar: number): string => printedBarNumber(score.bars[bar]!.number);
  return setTable(
    {
      heads: headsOf(study.passageHeads, PASSAGE_COLUMNS),
      rows: plan.summary.difficulty.passages.map(({ from, until, grade, measures, causes }) => [
        from === until ? numberOf(from) : `${numberOf(from)}–${numberOf(until)}`,
        difficulty.grades[grade],
        `${measures.changes}`,
        study.rate(measures.changesPerMinute),
        causes.map((cause) => tellCause(cause, sheet)).join(' '),
      ]),
    },
    sheet,
  );
};

interface Entry {
  readonly name: string;
  /** Index of the page. */
  readonly page: number;
}

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
