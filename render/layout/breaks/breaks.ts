import type { Score } from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../layout-mei.ts';

/** Where lines and pages of a layout begin: indices of bars, the first bar of all left out. */
export interface Breaks {
  readonly systems: readonly number[];
  /** The systems that begin a page. */
  readonly pages: readonly number[];
}

export const breakEdits = (score: Score, mei: LayoutMei, { systems, pages }: Breaks): Edit[] => {
  const onNewPage = new Set(pages);
  return systems.flatMap((bar) => {
    const measure = mei.measureOf(score.bars[bar]!);
    if (measure === undefined) return [];
    return [insertAt(measure.span.start, onNewPage.has(bar) ? '<pb/>' : '<sb/>')];
  });
};
