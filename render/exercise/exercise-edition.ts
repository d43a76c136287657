import { type HarpPlan, joinTitles, ok, type Result, type Score } from '../../engine/index.ts';
import { type EngravingOptions, paperSize } from '../engraving-options.ts';
import { nameTuning } from '../facts/tell-tuning.ts';
import { titleOf } from '../facts/title-of.ts';
import { pageLayoutOf } from '../layout/breaks/page-layout.ts';
import type { Drawer } from '../layout/drawer/drawer.ts';
import { workOut } from '../layout/stepwise.ts';
import type { Shown } from '../pages/drawn-score.ts';
import { type EngravedPages, engravePages } from '../pages/engrave-pages.ts';
import { linesUnderTitle } from '../part/prepare-mei.ts';
import type { Bookmark } from '../printed/bookmarks.ts';
import { makeIdsUnique } from '../printed/unique-ids.ts';
import { drawNotesPage } from '../sheets/notes-page.ts';
import { sheetOn } from '../sheets/sheet.ts';
import { drawFoot, finishSheet, layOver, overlaySheet } from '../sheets/sheet-page.ts';
import type { BoundPages } from '../study/study-edition.ts';
import { mergeCharacters } from '../text/embed-fonts.ts';
import { wordsOf } from '../words/words.ts';

/**
 * A part for a pupil to write the settings and changes into, and after it the solution, from a right-hand page on so that
 * it can be taken away. With boxes both are laid out alike; without, the room for the solution would tell the places.
 *
 * @param use in a class set the pages get the numbers of the set
 * @returns as `engravePages`
 */
export const engraveExercise = (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
  use: 'alone' | 'in-class-set' = 'alone',
): Result<BoundPages> => {
  const { exercise, labelled, levers } = wordsOf(engraving);
  // Small notes would have their places in the music, and the explanations show signs of the solution.
  const beatCounts = countsIn(engraving);
  const plain = { ...engraving, leverLook: 'names', legend: false, changeWords: false, beatCounts } as const;
  const task = [
    labelled(exercise.title, tellTask(harp, engraving)),
    ...(harp.kind === 'lever'
      ? [levers.start.tuning(nameTuning(harp.plan.tuning, engraving.naming, wordsOf(engraving)))]
      : []),
  ].join('\n');
  const engrave = (lines: readonly string[], shown: Shown): Result<EngravedPages> =>
    workOut(engravePages(withLines(score, lines), harp, plain, drawer, { shown, pagesBefore: null }));
  // What is to be done keeps off the names below it.
  const asking = [...linesUnderTitle(task, pageLayoutOf(engraving)), EMPTY_LINE];
  const asked = engrave(asking, engraving.blanks);
  if (!asked.ok) return asked;
  // As many lines, so that the music of both stands alike.
  const solved = engrave([exercise.solution, ...asking.slice(1).map(() => EMPTY_LINE)], 'all');
  if (!solved.ok) return solved;
  return ok(bind(score, engraving, { asked: asked.value, solved: solved.value }, use));
};

/** Where the pupil finds the places, counts over bars with changes alone would tell them. */
const countsIn = ({ beatCounts, blanks }: EngravingOptions): EngravingOptions['beatCounts'] =>
  blanks === 'none' && beatCounts === 'bars-with-changes' ? 'every-bar' : beatCounts;

const tellTask = (
  { kind, plan }: HarpPlan,
  { blanks, language }: Pick<EngravingOptions, 'blanks' | 'language'>,
): string => {
  const { exercise } = wordsOf({ language });
  // Without boxes the pupil is to find out that nothing changes.
  return plan.moves.length === 0 && blanks === 'boxes'
    ? exercise.taskAtStart[kind]
    : exercise.task[kind][blanks];
};

const EMPTY_LINE = '\u00a0';

/** The part with lines under its title: what is to be done is read before the music. */
const withLines = (score: Score, lines: readonly string[]): Score => {
  const { titles } = score;
  return { ...score, titles: { ...titles, subtitle: [titles.subtitle, ...lines].join('\n') } };
};

interface Copies {
  readonly asked: EngravedPages;
  readonly solved: EngravedPages;
}

const bind = (
  score: Score,
  engraving: EngravingOptions,
  { asked, solved }: Copies,
  use: 'alone' | 'in-class-set',
): BoundPages => {
  const sheet = sheetOn(paperSize(engraving.paper), engraving.language);
  const { exercise } = wordsOf(sheet);
  const title = titleOf(score);
  const between = asked.pages.length % 2 === 0 ? [] : [finishSheet(drawNotesPage(sheet), sheet, null)];
  const start = asked.pages.length + between.length;
  const all = [
    ...[...asked.pages, ...between.map(({ svg }) => svg)].map((page) => ({ page, name: exercise.title })),
    ...solved.pages.map((page) => ({ page, name: exercise.solution })),
  ];
  const footed = all.map(({ page, name }, i) => {
    const foot = { words: joinTitles(title, name), page: `${i + 1}/${all.length}` };
    const overlay = overlaySheet(use === 'alone' ? drawFoot(sheet, foot) : '', sheet);
    return { page: layOver(page, overlay.svg), overlay };
  });
  const drawn = [...between, ...footed.map(({ overlay }) => overlay)];
  const mark = (text: string, page: number, level: 1 | 2): Bookmark => ({ text, page, topMm: 0, level });
  return {
    ...asked,
    pages: makeIdsUnique(footed.map(({ page }) => page)),
    characters: mergeCharacters([
      asked.characters,
      solved.characters,
      ...drawn.map(({ characters }) => characters),
    ]),
    missing: [...new Set([...asked.missing, ...drawn.flatMap(({ missing }) => missing)])],
    bookmarks: [
      mark(title, 0, 1),
      ...asked.rehearsals.map(({ text, page }) => mark(text, page, 2)),
      mark(exercise.solution, start, 1),
    ],
  };
};
