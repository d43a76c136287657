import { descendantsNamed, type XmlElement } from '../../engine/xml/tree.ts';
import { readTextRuns } from '../text/text-runs.ts';

/** A rehearsal mark on a page. */
export interface RehearsalMark {
  readonly text: string;
  /** Index of the page. */
  readonly page: number;
  /** Its height within the page's margins, in the page's units. */
  readonly y: number;
}

export const findRehearsalMarks = (svg: string, root: XmlElement, page: number): RehearsalMark[] =>
  descendantsNamed(root, 'g')
    .filter((group) => group.attributes.class === 'reh')
    .flatMap((group) => descendantsNamed(group, 'text').slice(0, 1))
    .map((text) => readTextRuns(svg, text).runs)
    .map((runs) => ({
      text: runs
        .map((run) => run.text)
        .join('')
        .trim(),
      page,
      y: runs.find((run) => run.start !== null)?.start?.y ?? 0,
    }))
    .filter(({ text }) => text !== '');
