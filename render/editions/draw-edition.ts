import { type HarpPlan, ok, type Remark, type Result, type Score } from '../../engine/index.ts';
import { drawCard } from '../card/summary-card.ts';
import { type EngravingOptions, paperSize } from '../engraving-options.ts';
import { engraveExercise } from '../exercise/exercise-edition.ts';
import { titleOf } from '../facts/title-of.ts';
import type { Drawer } from '../layout/drawer/drawer.ts';
import { type Stepwise, workOut } from '../layout/stepwise.ts';
import { engravePages, type PrintRun } from '../pages/engrave-pages.ts';
import type { ReadyPage } from '../pages/page-finisher.ts';
import { readBookmarks } from '../printed/bookmarks.ts';
import type { PaperSize } from '../printed/pdf.ts';
import { layoutRemarks, lettersMissing, printingRemarks } from '../remarks.ts';
import { type BoundPages, bindStudyEdition } from '../study/study-edition.ts';
import { wordsOf } from '../words/words.ts';

/** An edition of a part, ready to be handed out. */
export interface DrawnEdition extends Pick<BoundPages, 'pages' | 'characters' | 'turns' | 'bookmarks'> {
  readonly paper: PaperSize;
  readonly remarks: readonly Remark[];
}

/** What a part is bound with, and which of its pages is told first. */
interface Binding extends Pick<PrintRun, 'first' | 'early'> {
  /** How many pages stand before it in what is bound. */
  readonly pagesBefore?: number;
  readonly use?: 'alone' | 'in-class-set';
}

/** The part alone, with what is studied beside it, or to write in. @yields pages of the part alone that are ready early */
export function* drawPart(
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
  binding: Binding = {},
): Stepwise<ReadyPage, Result<DrawnEdition>> {
  const { pagesBefore = 0 } = binding;
  const made = yield* bindEdition(score, harp, engraving, drawer, binding);
  if (!made.ok) return made;
  const { crowded, turns } = made.value;
  const bound = {
    ...made.value,
    turns: turns.map((turn) => ({ ...turn, page: turn.page + pagesBefore })),
    crowded: crowded.map((each) => ({ ...each, page: each.page + pagesBefore })),
  };
  const remarks = [
    ...printingRemarks(score, harp, engraving, bound.reminders),
    ...layoutRemarks(score, bound, engraving),
  ];
  return ok({ ...bound, paper: paperSize(engraving.paper), remarks });
}

function* bindEdition(
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
  { use = 'alone', ...run }: Binding,
): Stepwise<ReadyPage, Result<BoundPages>> {
  if (engraving.edition === 'exercise') return engraveExercise(score, harp, engraving, drawer, use);
  // A study edition explains the markings on a sheet of its own.
  const legend = engraving.legend && engraving.edition !== 'study';
  // What a part is bound in numbers its pages at their foot.
  const hasOwnNumbers = use === 'alone' && engraving.edition === 'part';
  const pagesBefore = hasOwnNumbers ? (run.pagesBefore ?? 0) : null;
  const drawing = engravePages(score, harp, { ...engraving, legend }, drawer, { ...run, pagesBefore });
  const engraved = engraving.edition === 'part' ? yield* drawing : workOut(drawing);
  if (!engraved.ok) return engraved;
  if (engraving.edition === 'study') return ok(bindStudyEdition(score, harp, engraving, engraved.value, use));
  const title = titleOf(score);
  const bookmarks = readBookmarks(title, score, engraved.value, wordsOf(engraving));
  return ok({ ...engraved.value, bookmarks });
}

/** What is printed by itself: a card, which is one page, or else the part. @yields as `drawPart` */
export function* drawAlone(...part: Parameters<typeof drawPart>): ReturnType<typeof drawPart> {
  const [score, harp, engraving] = part;
  return engraving.edition === 'card'
    ? ok(drawCardEdition(score, harp, engraving))
    : yield* drawPart(...part);
}

export const drawCardEdition = (score: Score, harp: HarpPlan, engraving: EngravingOptions): DrawnEdition => {
  const { page, size } = drawCard(score, harp, engraving);
  return {
    pages: [page.svg],
    characters: page.characters,
    turns: [],
    bookmarks: [],
    paper: size,
    remarks: lettersMissing(page.missing),
  };
};
