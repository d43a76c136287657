import { type HarpPlan, ok, type Result, type Score } from '../../engine/index.ts';
import { checkEngraving, completeEngraving, type EngravingOptions, paperSize } from '../engraving-options.ts';
import { titleOf } from '../facts/title-of.ts';
import { drawTable, type PrintedTable, writePrintedTable } from '../handouts/draw-table.ts';
import { type Drawer, startDrawer } from '../layout/drawer/drawer.ts';
import { workOut } from '../layout/stepwise.ts';
import { type EngravedPages, engravePages } from '../pages/engrave-pages.ts';
import { VERSION_DATE } from '../printed/document-date.ts';
import { renderPdf } from '../printed/pdf.ts';
import { makeIdsUnique } from '../printed/unique-ids.ts';
import { type BoundSheets, bindSheets } from '../sheets/bind-sheets.ts';
import type { Block } from '../sheets/block.ts';
import { fillSheets } from '../sheets/fill-sheets.ts';
import { writeHeading } from '../sheets/headings.ts';
import { type Sheet, sheetOn } from '../sheets/sheet.ts';
import { cutLines, placeLines } from '../study/spots/excerpt.ts';
import { embedFonts } from '../text/embed-fonts.ts';
import type { SetMusic } from './set-music.ts';

/** A tune of a set, planned. */
export interface SetTune {
  readonly score: Score;
  readonly plan: HarpPlan;
}

/** A tune is known by so many of its bars; the line that holds them is shown whole. */
const FIRST_BARS = 4;

/**
 * Draws the table of a set, and after it the tunes in their order: the line with the first bars of each, or all pages.
 *
 * @param tunes in the order of the set
 * @returns as `drawTable`, or `layout-failed`
 */
export const drawSet = async (
  table: PrintedTable,
  tunes: readonly SetTune[],
  music: SetMusic,
): Promise<Result<BoundSheets>> => {
  if (music === 'none') return drawTable(table);
  const checked = checkEngraving(completeEngraving({}, 'lever'));
  if (!checked.ok) return checked;
  const engraving = checked.value;
  const sheet = sheetOn(paperSize(engraving.paper), 'english');
  const drawer = await startDrawer();
  const engraved: EngravedPages[] = [];
  for (const tune of tunes) {
    const pages = engraveTune(tune, music, engraving, drawer);
    if (!pages.ok) return pages;
    engraved.push(pages.value);
  }
  const written = writePrintedTable(table, sheet);
  if (music === 'pages') return ok(await bindPages(table.title, written, engraved, sheet));
  const blocks = tunes.flatMap(({ score }, i) => {
    const lines = cutLines(engraved[i]!.pages, score.bars.slice(0, FIRST_BARS), sheet);
    const look = { paleOutside: false, share: 1, name: `tune-${i + 1}` };
    return [...writeHeading(`${i + 1}. ${titleOf(score)}`, sheet), ...placeLines(lines, look, sheet)];
  });
  const drawings = fillSheets({ blocks: [...written.blocks, ...blocks], repeated: null }, sheet);
  return ok(await bindSheets(drawings, sheet, table.title));
};

/** First bars have the title over them already. */
const engraveTune = (
  { score, plan }: SetTune,
  music: Exclude<SetMusic, 'none'>,
  engraving: EngravingOptions,
  drawer: Drawer,
): Result<EngravedPages> => {
  const { titles, harp } = score;
  const untitled = {
    ...score,
    titles: { ...titles, title: '', subtitle: '', composer: '', arranger: '' },
    harp: { ...harp, name: '' },
  };
  return workOut(engravePages(music === 'pages' ? score : untitled, plan, engraving, drawer));
};

/** The sheets of the table, and after them the pages of the tunes as they are. */
const bindPages = async (
  title: string,
  { blocks, head }: { readonly blocks: readonly Block[]; readonly head: Block },
  engraved: readonly EngravedPages[],
  sheet: Sheet,
): Promise<BoundSheets> => {
  const front = await bindSheets(fillSheets({ blocks, repeated: head }, sheet), sheet, title);
  const tunes = await Promise.all(engraved.map(({ pages, characters }) => embedFonts(pages, characters)));
  const pages = makeIdsUnique([...front.pages, ...tunes.flat()]);
  const meta = { title, author: '', date: VERSION_DATE, language: sheet.language };
  return { pages, pdf: renderPdf(pages, sheet.paper, meta, [{ text: title, page: 0, topMm: 0, level: 1 }]) };
};
