import { descendantsNamed, type Score, type XmlElement } from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';
import type { LayoutMei } from '../document/layout-mei.ts';

/** Where lines and pages of a layout begin: indices of bars, the first bar of all left out. */
export interface Breaks {
  readonly systems: readonly number[];
  /** The systems that begin a page. */
  readonly pages: readonly number[];
}

/** Page breaks before the lines: the layout draws each line by itself. An ending that begins a line begins behind the break. */
export const lineBreakEdits = (score: Score, mei: LayoutMei, lines: readonly number[]): Edit[] => {
  const endings = new Map(
    descendantsNamed(mei.root, 'ending').map((ending) => [firstMeasure(ending), ending] as const),
  );
  return lines.flatMap((bar) => {
    const measure = mei.measureOf(score.bars[bar]!);
    if (measure === undefined) return [];
    const { span } = endings.get(measure) ?? measure;
    return [insertAt(span.start, '<pb/>')];
  });
};

const firstMeasure = (ending: XmlElement): XmlElement | undefined => descendantsNamed(ending, 'measure')[0];
