import type { Score } from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../layout-mei.ts';

/** Where lines and pages of a layout begin: indices of bars, the first bar of all left out. */
export interface Breaks {
  readonly systems: readonly number[];
  /** The systems that begin a page. */
  readonly pages: readonly number[];
}

/** Page breaks before the lines: the layout draws each line by itself. */
export const lineBreakEdits = (score: Score, mei: LayoutMei, lines: readonly number[]): Edit[] =>
  lines.flatMap((bar) => {
    const measure = mei.measureOf(score.bars[bar]!);
    return measure === undefined ? [] : [insertAt(measure.span.start, '<pb/>')];
  });
