import type { Score } from '../../engine/score/model/score.ts';
import { completeEngraving } from '../../render/engraving-options.ts';
import type { BreakRequest } from '../../render/layout/breaks/choose-breaks.ts';
import { givenLines, lineStartWidth } from '../../render/layout/breaks/choose-breaks.ts';
import { pageLayoutOf } from '../../render/layout/breaks/page-layout.ts';
import { GAP_VU, headingLoss, pageSpaceOf } from '../../render/layout/breaks/page-space.ts';
import type { PageTurn } from '../../render/layout/breaks/page-turns.ts';

/** What is measured of a part's breaks. */
export interface BreakQuality {
  readonly pages: number;
  readonly systems: number;
  /** Bars (joined rests count as one) on the last system. */
  readonly lastBars: number;
  /** How much wider than by nature its lines are set, without the last: the mean, its standard deviation, the most. */
  readonly stretch: { readonly mean: number; readonly spread: number; readonly most: number };
  /** Pages under 60 % full, but for the last, that do not end before a turn with a free hand. */
  readonly thin: number;
  readonly turns: number;
  /** Of these, turns without a free hand. */
  readonly hurried: number;
}

/** Pages as they were drawn, by whatever version of the program. */
export interface DrawnPages {
  readonly pages: readonly string[];
  readonly turns: readonly PageTurn[];
}

const THIN = 0.6;

/** The ids of the bars of each system of each page. */
const systemsOf = (page: string): string[][] =>
  page
    .split('class="system"')
    .slice(1)
    .map((system) => [...system.matchAll(/<g id="([^"]*)" class="measure"/g)].map(([, id]) => id!));

/** Holds where lines and pages break against what `measurePart` says of the bars by nature. */
export const measureBreaks = (
  score: Score,
  task: BreakRequest,
  { pages, turns }: DrawnPages,
): BreakQuality => {
  const indexOf = new Map(score.bars.map(({ id, index }) => [id, index]));
  const lines = pages.map((page) => systemsOf(page).map((bars) => bars.map((id) => indexOf.get(id)!)));
  const flat = lines.flat();
  const widths = new Map(task.part.bars.map(({ bar, width }) => [bar, width]));
  const shown = task.part.bars.map(({ bar }) => bar);
  const { room, width } = pageSpaceOf(pageLayoutOf(completeEngraving({})));
  const stretches = flat.slice(0, -1).map((bars, i) => {
    const start = i === 0 ? 0 : lineStartWidth(score.bars[bars[0]!]!.keyFifths);
    return width / bars.reduce((sum, bar) => sum + (widths.get(bar) ?? 0), start);
  });
  const heightFrom = givenLines(
    task,
    flat.map(([first]) => first!),
  );
  const filled = lines.map((systems, page) => {
    const loss = page === 0 ? headingLoss(task.part.heading) : 0;
    return (
      systems.reduce((sum, [first]) => sum + heightFrom(shown.indexOf(first!))[0]!.height, loss) /
      (room + GAP_VU)
    );
  });
  const chosen = new Set(turns.filter(({ free }) => free !== 'none').map(({ page }) => page));
  return {
    pages: pages.length,
    systems: flat.length,
    lastBars: flat.at(-1)!.length,
    stretch: spreadOf(stretches),
    thin: filled.filter((share, page) => share < THIN && page < pages.length - 1 && !chosen.has(page + 1))
      .length,
    turns: turns.length,
    hurried: turns.filter(({ free }) => free === 'none').length,
  };
};

const spreadOf = (values: readonly number[]): BreakQuality['stretch'] => {
  const mean = values.reduce((sum, each) => sum + each, 0) / Math.max(1, values.length);
  const squares = values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / Math.max(1, values.length);
  return { mean, spread: Math.sqrt(squares), most: Math.max(1, ...values) };
};
