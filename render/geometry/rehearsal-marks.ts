import { descendantsNamed, type XmlElement } from '../../engine/index.ts';
import { readTextRuns } from '../text/text-runs.ts';

/** A rehearsal mark on a page. */
export interface RehearsalMark {
  readonly text: string;
  /** Index of the page. */
  readonly page: number;
  /** From the upper edge of the page, in its units. */
  readonly y: number;
}

/** Those of a drawing, with their heights in its coordinates. */
export const findRehearsalMarks = (
  svg: string,
  root: XmlElement,
): readonly Pick<RehearsalMark, 'text' | 'y'>[] =>
  descendantsNamed(root, 'g')
    .filter((group) => group.attributes.class === 'reh')
    .flatMap((group) => descendantsNamed(group, 'text').slice(0, 1))
    .map((text) => readTextRuns(svg, text).runs)
    .map((runs) => ({
      text: runs
        .map((run) => run.text)
        .join('')
        .trim(),
      y: runs.find((run) => run.start !== null)?.start?.y ?? 0,
    }))
    .filter(({ text }) => text !== '');
