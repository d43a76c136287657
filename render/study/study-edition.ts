import { type HarpPlan, joinTitles, type Score } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { paperSize } from '../engraving-options.ts';
import { titleOf } from '../facts/title-of.ts';
import { leversAsTold } from '../levers/lever-markings.ts';
import { planAsTold } from '../markings/plan-as-told.ts';
import type { EngravedPages } from '../pages/engrave-pages.ts';
import { type Bookmark, bookmarksWithin } from '../printed/bookmarks.ts';
import { makeIdsUnique } from '../printed/unique-ids.ts';
import {
  drawSheets,
  type PackedSheets,
  packSections,
  type Section,
  type SheetPlace,
} from '../sheets/fill-sheets.ts';
import { drawNotesPage } from '../sheets/notes-page.ts';
import { type Sheet, sheetOn } from '../sheets/sheet.ts';
import { drawFoot, type Foot, finishSheet, layOver, overlaySheet } from '../sheets/sheet-page.ts';
import { mergeCharacters } from '../text/embed-fonts.ts';
import type { FinishedPage } from '../text/finish-page.ts';
import { wordsOf } from '../words/words.ts';
import { type Chapter, type Chapters, writeChapters } from './chapters.ts';
import { type ContentsEntry, writeContents } from './contents.ts';
import { writeTitleSheet } from './title-sheet.ts';

/** Pages as they are handed out, with the outline of their PDF. */
export interface BoundPages extends EngravedPages {
  readonly bookmarks: readonly Bookmark[];
}

/**
 * Binds a part with what a teacher and a pupil need beside it: title page and contents before it, for levers the tuning
 * sheet; after it charts and tables of what moves, the passages by difficulty, the hard spots, and the findings.
 *
 * @param engraved the pages of the part
 * @param use in a class set contents and page numbers are those of the set, which also tells how markings are read
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
  const title = titleOf(score);
  const told = harpAsTold(score, harp, engraving, engraved.reminders);
  const bound = setChapters(
    {
      opening: { blocks: writeTitleSheet(score, told, engraving, sheet), repeated: null },
      hasContents: use === 'alone',
      ...writeChapters({ score, harp, engraved }, told, engraving, sheet, use),
      partPages: engraved.pages.length,
      inPart: bookmarksWithin(score, engraved, wordsOf(sheet)),
      hasMovements: score.movements.length > 0,
    },
    sheet,
  );
  const { front, back } = bound;
  const words = joinTitles(title, study.edition);
  const count = front.length + engraved.pages.length + back.length;
  // The part has page numbers of its own: out of how many tells these apart.
  const footOf = (page: number): Foot | null =>
    use === 'alone' ? { words, page: `${page + 1}/${count}` } : null;
  const finish = (sheets: readonly string[], start: number): readonly FinishedPage[] =>
    sheets.map((drawing, i) => finishSheet(drawing, sheet, footOf(start + i)));
  const feet = engraved.pages.map((_, i) => {
    const foot = footOf(front.length + i);
    return overlaySheet(foot === null ? '' : drawFoot(sheet, foot), sheet);
  });
  const made = [...finish(front, 0), ...finish(back, front.length + engraved.pages.length)];
  const pages = [...made, ...feet];
  return {
    ...engraved,
    pages: makeIdsUnique([
      ...made.slice(0, front.length).map(({ svg }) => svg),
      ...engraved.pages.map((page, i) => layOver(page, feet[i]!.svg)),
      ...made.slice(front.length).map(({ svg }) => svg),
    ]),
    characters: mergeCharacters([engraved.characters, ...pages.map(({ characters }) => characters)]),
    missing: [...new Set([...engraved.missing, ...pages.flatMap(({ missing }) => missing)])],
    turns: engraved.turns.map((turn) => ({ ...turn, page: turn.page + front.length })),
    crowded: engraved.crowded.map((each) => ({ ...each, page: each.page + front.length })),
    bookmarks: listBookmarks(
      { title, contents: bound.contents === null ? null : { ...bound.contents, name: study.contents } },
      bound.entries,
    ),
  };
};

/** Sheets tell each move where, and for which time of playing, the part has its marking. */
const harpAsTold = (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  reminders: readonly number[],
): HarpPlan => {
  if (harp.kind === 'lever') return { ...harp, plan: leversAsTold(score, harp.plan, reminders) };
  return { ...harp, plan: planAsTold(score, harp.plan, engraving) };
};

/** A chapter where it begins, and what stands in it. */
interface PlacedChapter extends ContentsEntry {
  readonly marks: readonly Bookmark[];
}

/** What is bound, in its order. */
interface Bound {
  /** Sheets before the part and after it. */
  readonly front: readonly string[];
  readonly back: readonly string[];
  readonly entries: readonly PlacedChapter[];
  /** Where the contents stand; null where there are none. */
  readonly contents: SheetPlace | null;
}

interface Material extends Chapters {
  readonly opening: Section;
  readonly hasContents: boolean;
  readonly partPages: number;
  /** Movements and rehearsal marks, by its own pages. */
  readonly inPart: readonly Bookmark[];
  readonly hasMovements: boolean;
}

/**
 * Sets the chapters on as few sheets as they need, in their one order. Before the part is an even number of sheets, so that
 * its pages turn where the layout meant them to: where that leaves a sheet empty, it is for notes.
 */
const setChapters = (material: Material, sheet: Sheet): Bound => {
  const back = packSections(sectionsOf(material.after), sheet);
  // How high the contents are does not depend on the numbers in them.
  const measured = packFront(material, [], sheet);
  const entries = listEntries(material, measured, back, sheet);
  const packed = packFront(material, entries, sheet);
  const front = drawSheets(packed, sheet);
  return {
    front: front.length % 2 === 0 ? front : [...front, drawNotesPage(sheet)],
    back: drawSheets(back, sheet),
    entries,
    contents: material.hasContents ? packed.starts[1]! : null,
  };
};

const evenUp = (sheets: number): number => sheets + (sheets % 2);

const sectionsOf = (chapters: readonly Chapter[]): readonly Section[] =>
  chapters.flatMap(({ sections }) => sections);

/** What stands before the part. */
const packFront = (material: Material, entries: readonly ContentsEntry[], sheet: Sheet): PackedSheets => {
  const { study } = wordsOf(sheet);
  const { opening, hasContents, before, after } = material;
  const part = { name: study.part, within: listMovementsIn(material, 0) };
  const names = [...before, part, ...after];
  const listed = entries.length === 0 ? names.map((each) => ({ ...each, page: 0, topMm: 0 })) : entries;
  const contents = hasContents ? [{ blocks: writeContents(listed, sheet), repeated: null }] : [];
  return packSections([opening, ...contents, ...sectionsOf(before)], sheet);
};

/** Where each chapter begins, in the order of the pages. */
const listEntries = (
  material: Material,
  front: PackedSheets,
  back: PackedSheets,
  sheet: Sheet,
): readonly PlacedChapter[] => {
  const { study } = wordsOf(sheet);
  const { hasContents, before, after, inPart, partPages } = material;
  const part = evenUp(front.sheets.length);
  const marks = inPart.map((mark) => ({ ...mark, page: mark.page + part }));
  return [
    ...placeChapters(before, front.starts.slice(hasContents ? 2 : 1), 0),
    { name: study.part, page: part, topMm: 0, within: listMovementsIn(material, part), marks },
    ...placeChapters(after, back.starts, part + partPages),
  ];
};

/** What the contents list within the part: its movements, under which rehearsal marks are one level deeper. */
const listMovementsIn = (
  { hasMovements, inPart }: Pick<Material, 'hasMovements' | 'inPart'>,
  part: number,
): Required<ContentsEntry>['within'] =>
  hasMovements
    ? inPart.filter(({ level }) => level === 2).map(({ text, page }) => ({ name: text, page: page + part }))
    : [];

/** @param starts of the sections of all chapters */
const placeChapters = (
  chapters: readonly Chapter[],
  starts: PackedSheets['starts'],
  firstPage: number,
): readonly PlacedChapter[] => {
  let next = 0;
  return chapters.map(({ name, sections }) => {
    const { sheet, topMm } = starts[next]!;
    next += sections.length;
    return { name, page: firstPage + sheet, topMm, marks: [] };
  });
};

interface Opening {
  readonly title: string;
  readonly contents: (SheetPlace & { readonly name: string }) | null;
}

const listBookmarks = (
  { title, contents }: Opening,
  entries: readonly PlacedChapter[],
): readonly Bookmark[] => [
  { text: title, page: 0, topMm: 0, level: 1 },
  ...(contents === null
    ? []
    : [{ text: contents.name, page: contents.sheet, topMm: contents.topMm, level: 1 as const }]),
  ...entries.flatMap(({ name, page, topMm, marks }): readonly Bookmark[] => [
    { text: name, page, topMm, level: 1 },
    ...marks,
  ]),
];
