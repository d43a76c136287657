import { childrenNamed, descendantsNamed, wordsOf, type XmlElement } from '../../../engine/index.ts';
import { type Edit, insertAt } from '../../edit.ts';

/** A space that layout does not take away where a stretch of words begins. */
const SPACE = '\u00a0';

/**
 * What ends with a letter, a number or a point, and what begins with one, a bracket or a sign of music: whole words, parted
 * on paper.
 */
const ENDS_WORD = /[\p{L}\p{N}.,;:!?)]$/u;
const BEGINS_WORD = /^[\p{L}\p{N}\p{Co}(]/u;

const areRunTogether = (before: string, after: string): boolean =>
  ENDS_WORD.test(before) && BEGINS_WORD.test(after);

/** Edits that part the words of one direction, which the conversion from MusicXML runs together. */
export const directionWordEdits = (bars: readonly XmlElement[]): Edit[] =>
  bars
    .flatMap((bar) => descendantsNamed(bar, 'direction'))
    .flatMap((direction) => {
      const said = childrenNamed(direction, 'direction-type')
        .flatMap(({ children }) => children)
        .flatMap((each) => {
          if (each.name === 'words') return [{ element: each, text: each.text, isSign: false }];
          const sign = each.name === 'dynamics' ? each.children[0]?.name : undefined;
          return sign === undefined ? [] : [{ element: each, text: sign, isSign: true }];
        });
      return said.flatMap(({ element, text, isSign }, i) => {
        const before = said[i - 1];
        if (isSign || before === undefined || !areRunTogether(before.text, text)) return [];
        // The layout knows a dynamic by the plain space after it.
        return [insertAt(element.inner.start, before.isSign ? ' ' : SPACE)];
      });
    });

/** Edits that part stretches of words in MEI, between which the layout takes the space away, or that have none. */
export const stretchEdits = (text: string, root: XmlElement): Edit[] =>
  descendantsNamed(root, 'dir', 'tempo').flatMap(({ children }) =>
    children.flatMap((stretch, i) => {
      const before = children[i - 1];
      if (before?.name !== 'rend' || stretch.name !== 'rend') return [];
      const isBlank = text.slice(before.span.end, stretch.span.start).trim() === '';
      return isBlank && areRunTogether(wordsOf(before, text), wordsOf(stretch, text))
        ? [{ start: before.span.end, end: stretch.span.start, put: SPACE }]
        : [];
    }),
  );
