import { least } from 'd3-array';
import { GRADES } from '../../engine/index.ts';
import { nameSeconds } from '../facts/name-seconds.ts';
import type { PartFacts } from '../facts/part-facts.ts';
import { tellStands } from '../facts/tell-stands.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import type { Bookmark } from '../printed/bookmarks.ts';
import { type Block, baselineOf, emptySpace, heightOfLines, writeParagraph } from '../sheets/block.ts';
import {
  drawSheets,
  type PackedSheets,
  packSections,
  type Section,
  type SheetPlace,
} from '../sheets/fill-sheets.ts';
import { writeHead, writeHeading } from '../sheets/headings.ts';
import { drawNotesPage } from '../sheets/notes-page.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { setTable } from '../sheets/table.ts';
import { drawWords, type Lettering, shortenWords } from '../sheets/words.ts';
import { writeReadingChapter } from '../study/chapters.ts';
import { type Reading, readingsOfSet } from '../study/reading-sheet.ts';
import type { Words } from '../words/worded.ts';
import { wordsOf } from '../words/words.ts';

/** A piece as it was drawn, to be bound with others. */
export interface ClassPiece {
  readonly facts: PartFacts;
  /** SVG documents without fonts, one a page, without page numbers of a study edition. */
  readonly pages: readonly string[];
  readonly bookmarks: readonly Bookmark[];
  /** How its markings are read; null where that is not told, or stands on its own pages. */
  readonly reading: Reading | null;
}

/** Why a piece is not in a set, as its sheet tells: what exactly is wrong with the file is told where the set is asked for. */
export type Refusal = keyof Words['set']['refusals'];

/** What could not be drawn. */
export interface RefusedPiece {
  readonly name: string;
  readonly refusal: Refusal;
}

/** A piece at its place. */
export interface BoundPiece extends ClassPiece {
  /** Index of its first page. */
  readonly start: number;
}

/** What stands before the pieces. */
export interface FrontSheets {
  /** The drawing of each sheet; an even number. */
  readonly sheets: readonly string[];
  /** Where it is told how the markings are read. */
  readonly readings: readonly (SheetPlace & Pick<NamedReading, 'name'>)[];
}

/** What the front sheets are written on and with. */
export interface FrontLook {
  readonly sheet: Sheet;
  readonly naming: NoteNaming;
  /** What the set is called. */
  readonly title: string;
}

/**
 * Contents with what was refused, the table of difficulty, what is set from piece to piece, and how the markings are read:
 * an even number of sheets.
 */
export const drawFront = (
  placed: readonly BoundPiece[],
  refused: readonly RefusedPiece[],
  look: FrontLook,
): FrontSheets => {
  const { sheet } = look;
  const readings = readingsOfSet(
    placed.map(({ reading }) => reading),
    sheet,
  );
  const named = nameReadings(readings, sheet);
  // Where it stands does not depend on the numbers in the contents.
  const { starts } = arrange(writeFront(placed, refused, named, [], look), sheet);
  const at = starts.slice(starts.length - readings.length);
  const { sheets } = arrange(writeFront(placed, refused, named, at, look), sheet);
  const drawn = drawSheets({ sheets, starts }, sheet);
  return {
    sheets: drawn.length % 2 === 0 ? drawn : [...drawn, drawNotesPage(sheet)],
    readings: named.map(({ name }, i) => ({ ...at[i]!, name })),
  };
};

/** How the markings of some pieces are read, and what that is called. */
interface NamedReading {
  readonly name: string;
  readonly reading: Reading;
}

/** Where there are several, each by the harp that it is for. */
const nameReadings = (readings: readonly Reading[], sheet: Sheet): readonly NamedReading[] => {
  const { title, titleOf } = wordsOf(sheet).reading;
  return readings.map((reading) => ({
    name: readings.length === 1 ? title : titleOf[reading.pictured.kind],
    reading,
  }));
};

/**
 * As few sheets as they need; where these are an odd number, with some section on a new sheet if that makes them even.
 */
const arrange = (sections: readonly Section[], sheet: Sheet): PackedSheets => {
  const packed = packSections(sections, sheet);
  if (packed.sheets.length % 2 === 0) return packed;
  const parted = sections
    .slice(1)
    .map((_, i) => joinSheets([sections.slice(0, i + 1), sections.slice(i + 1)], sheet))
    .filter(({ sheets }) => sheets.length % 2 === 0);
  return least(parted, (a, b) => a.sheets.length - b.sheets.length) ?? packed;
};

/** Each of these on sheets of its own. */
const joinSheets = (groups: readonly (readonly Section[])[], sheet: Sheet): PackedSheets => {
  const packed = groups.map((group) => packSections(group, sheet));
  const starts = packed.flatMap((own, i) => {
    const before = packed.slice(0, i).flatMap(({ sheets }) => sheets).length;
    return own.starts.map((start) => ({ ...start, sheet: before + start.sheet }));
  });
  return { sheets: packed.flatMap(({ sheets }) => sheets), starts };
};

/** @param at where it is told how the markings are read; none while that is not known */
const writeFront = (
  placed: readonly BoundPiece[],
  refused: readonly RefusedPiece[],
  readings: readonly NamedReading[],
  at: readonly SheetPlace[],
  { sheet, naming, title }: FrontLook,
): readonly Section[] => {
  const { text, strong, title: large } = letteringsOf(sheet);
  const { set: words, study } = wordsOf(sheet);
  const told = refused.flatMap(({ name, refusal }) =>
    writeParagraph(`${name}: ${words.refusals[refusal]}`, sheet.widthMm, {
      lettering: text,
      indentMm: 1.2 * sheet.emMm,
      mark: '•',
    }),
  );
  const contents = [
    ...writeParagraph(title, sheet.widthMm, { lettering: large, keepsWithNext: true }),
    { ...emptySpace(sheet.emMm), keepsWithNext: true },
    ...writeHead(words.contents, null, sheet),
    ...readings.map(({ name }, i) => listPage(name, at[i]?.sheet ?? 0, sheet, strong)),
    emptySpace(readings.length === 0 ? 0 : 0.3 * sheet.emMm),
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
    { blocks: contents, repeated: null },
    { blocks: table, repeated: head },
    { blocks: writeSettings(placed, naming, sheet), repeated: null },
    ...readings
      .flatMap(({ name, reading }) => writeReadingChapter(reading, sheet, name).sections)
      .map((section) => ({ ...section, staysWhole: true })),
  ];
};

/** What is told of a piece stands so far within its name. */
const INDENT_EM = 1.5;

/** What begins on a page, with its number. */
const listPage = (name: string, page: number, sheet: Sheet, lettering: Lettering, indentMm = 0): Block => ({
  heightMm: heightOfLines(1.2, lettering),
  keepsWithNext: indentMm === 0,
  draw: (x, y) => {
    const baseline = y + baselineOf(0, lettering);
    const room = sheet.widthMm - indentMm - 4 * sheet.emMm;
    return (
      drawWords(shortenWords(name, room, lettering), x + indentMm, baseline, lettering) +
      drawWords(`${page + 1}`, x + sheet.widthMm, baseline, lettering, 'end')
    );
  },
});

/** What each piece needs of the harp before it begins, and what of that is to be set after the piece before it. */
const writeSettings = (placed: readonly BoundPiece[], naming: NoteNaming, sheet: Sheet): readonly Block[] => {
  const { text, strong } = letteringsOf(sheet);
  const words = wordsOf(sheet);
  const indentMm = INDENT_EM * sheet.emMm;
  const told = tellStands(
    placed.map(({ facts }) => facts.stand),
    naming,
    words,
  );
  return [
    ...writeHead(words.set.settings, words.set.settingsLegend, sheet),
    ...placed.flatMap(({ facts: { name }, start }, i) => [
      listPage(name, start, sheet, strong),
      ...told[i]!.flatMap((line) =>
        writeParagraph(line, sheet.widthMm, { lettering: text, indentMm, keepsWithNext: true }),
      ),
      emptySpace(0.3 * sheet.emMm),
    ]),
  ];
};

/** A piece, who wrote it, and its chapters with their pages. */
const listPiece = ({ facts, bookmarks, start }: BoundPiece, sheet: Sheet): readonly Block[] => {
  const { text, strong } = letteringsOf(sheet);
  const chapters = chaptersOf(bookmarks);
  const indentMm = INDENT_EM * sheet.emMm;
  return [
    listPage(facts.name, start, sheet, strong),
    ...writeParagraph(facts.authors.join(', '), sheet.widthMm, { lettering: text, indentMm }),
    ...chapters.map(({ text: name, page }) => listPage(name, start + page, sheet, text, indentMm)),
    emptySpace(0.3 * sheet.emMm),
  ];
};

/** What a piece has beside its first page: the chapters of a study edition. */
export const chaptersOf = (bookmarks: readonly Bookmark[]): readonly Bookmark[] =>
  bookmarks.filter(({ level }) => level === 1).slice(1);

/** The easiest first, what is not playable last; of one grade those with fewer changes a minute. */
export const sortByDifficulty = <P extends Pick<ClassPiece, 'facts'>>(pieces: readonly P[]): readonly P[] =>
  pieces.toSorted(
    ({ facts: a }, { facts: b }) =>
      Number(b.playable) - Number(a.playable) ||
      GRADES.indexOf(a.grade) - GRADES.indexOf(b.grade) ||
      a.changesPerMinute - b.changesPerMinute,
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
        facts.playable ? facts.name : set.unplayable(facts.name),
      ]),
    },
    sheet,
  );
};
