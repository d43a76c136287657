import { GRADES } from '../../engine/index.ts';
import { nameSeconds } from '../facts/name-seconds.ts';
import type { PartFacts } from '../facts/part-facts.ts';
import type { Bookmark } from '../printed/bookmarks.ts';
import { type Block, baselineOf, emptySpace, heightOfLines, writeParagraph } from '../sheets/block.ts';
import { drawSheets, fillSheets, packSections } from '../sheets/fill-sheets.ts';
import { writeHead, writeHeading } from '../sheets/headings.ts';
import { drawNotesPage } from '../sheets/notes-page.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { setTable } from '../sheets/table.ts';
import { drawWords, shortenWords } from '../sheets/words.ts';
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

/** A piece at its place. */
export interface BoundPiece extends ClassPiece {
  /** Index of its first page. */
  readonly start: number;
}

/** Contents with what was refused, then the table of difficulty: an even number of sheets. */
export const drawFront = (
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
  const sections = [
    { blocks: contents, repeated: null },
    { blocks: table, repeated: head },
  ];
  const packed = drawSheets(packSections(sections, sheet), sheet);
  if (packed.length % 2 === 0) return packed;
  const apart = sections.flatMap((section) => fillSheets(section, sheet));
  return apart.length % 2 === 0 ? apart : [...packed, drawNotesPage(sheet)];
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
        facts.playable ? facts.title : set.unplayable(facts.title),
      ]),
    },
    sheet,
  );
};
