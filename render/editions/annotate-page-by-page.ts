import { type HarpPlan, ok, type Result, type Score } from '../../engine/index.ts';
import type { PagedAnnotation } from '../annotation.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { Drawer } from '../layout/drawer/drawer.ts';
import type { ReadyPage } from '../pages/page-finisher.ts';
import { fontStyle } from '../text/embed-fonts.ts';
import { describeScore } from './describe-score.ts';
import { drawAlone } from './draw-edition.ts';

/** As `Annotator.engravePageByPage`. */
export async function* annotatePageByPage(
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
  drawer: Drawer,
  first: number | null,
): AsyncGenerator<ReadyPage, Result<PagedAnnotation>, undefined> {
  const drawing = drawAlone(score, harp, engraving, drawer, { first, early: true });
  const told: string[] = [];
  let step = drawing.next();
  for (; step.done !== true; step = drawing.next()) {
    told[step.value.number - 1] = step.value.svg;
    yield step.value;
    await turnOfOthers();
  }
  if (!step.value.ok) return step.value;
  const { pages, characters, turns, remarks } = step.value.value;
  const left = pages.flatMap((svg, i) => (told[i] === svg ? [] : [{ number: i + 1, of: pages.length, svg }]));
  yield* beginWith(left, first === null ? undefined : score.bars[first]?.id);
  return ok({
    ...describeScore(score, harp, engraving),
    remarks: [...score.remarks, ...remarks],
    turns,
    pages,
    pdf: null,
    letters: await fontStyle(characters),
  });
}

/** The page with a bar, by its id, before the others. */
const beginWith = (pages: readonly ReadyPage[], bar: string | undefined): readonly ReadyPage[] => {
  const looked = bar === undefined ? undefined : pages.find(({ svg }) => svg.includes(` id="${bar}"`));
  return looked === undefined ? pages : [looked, ...pages.filter((page) => page !== looked)];
};

/** Layout never waits for anything: without this nothing else of the process would go on until the last page. */
const turnOfOthers = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));
