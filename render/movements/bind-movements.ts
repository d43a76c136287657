import type { EngravingOptions } from '../engraving-options.ts';
import { paperSize } from '../engraving-options.ts';
import type { Bookmark } from '../printed/bookmarks.ts';
import { makeIdsUnique } from '../printed/unique-ids.ts';
import { drawNotesPage } from '../sheets/notes-page.ts';
import { sheetOn } from '../sheets/sheet.ts';
import { finishSheet } from '../sheets/sheet-page.ts';
import type { BoundPages } from '../study/study-edition.ts';
import { type FontCharacters, mergeCharacters } from '../text/embed-fonts.ts';
import type { FinishedPage } from '../text/finish-page.ts';

/** The pages of one movement, drawn with the numbers that they have in the whole. */
export interface DrawnMovement extends Pick<BoundPages, 'pages' | 'characters' | 'bookmarks'> {
  /** How the movement is called; empty where it has no title. */
  readonly title: string;
}

/** All movements of a piece as one document. */
export interface BoundMovements {
  readonly pages: readonly string[];
  readonly characters: FontCharacters;
  readonly bookmarks: readonly Bookmark[];
}

/** Each movement begins on a right-hand page, so that its pages turn where the layout meant them to. */
export const pagesWithBlank = (pages: number): number => pages + (pages % 2);

/** Binds movements one after the other; where one ends on a right-hand page, a sheet for notes follows. */
export const bindMovements = (
  movements: readonly DrawnMovement[],
  engraving: EngravingOptions,
): BoundMovements => {
  const blank = drawBlank(engraving);
  let start = 0;
  const placed = movements.map((movement, index) => {
    const isFilled = movement.pages.length % 2 === 1 && index < movements.length - 1;
    const own = { ...movement, start, isFilled };
    start += pagesWithBlank(movement.pages.length);
    return own;
  });
  return {
    pages: makeIdsUnique(
      placed.flatMap(({ isFilled, pages }) => [...pages, ...(isFilled ? [blank.svg] : [])]),
    ),
    characters: mergeCharacters([blank.characters, ...movements.map(({ characters }) => characters)]),
    bookmarks: placed.flatMap(({ bookmarks, start: first, title }, index) => [
      { text: title === '' ? `${index + 1}` : title, page: first, topMm: 0, level: 1 as const },
      ...bookmarks.slice(1).map((each): Bookmark => ({ ...each, page: first + each.page, level: 2 })),
    ]),
  };
};

const drawBlank = ({ language, paper }: EngravingOptions): FinishedPage => {
  const sheet = sheetOn(paperSize(paper), language);
  return finishSheet(drawNotesPage(sheet), sheet, null);
};
