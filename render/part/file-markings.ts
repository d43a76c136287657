import {
  childrenNamed,
  descendantsNamed,
  type Score,
  type Span,
  type XmlElement,
} from '../../engine/index.ts';

/**
 * The pedal markings of the file that ours take the place of on the page. A direction that says something else as well
 * stays. MEI's `harpPedal` is never drawn by the layout, so it need not be cut.
 */
export const replacedFileMarkings = (score: Score): Span[] => {
  const { root, format } = score.source;
  const starts = new Set(score.markings.map(({ span }) => span.start));
  if (starts.size === 0) return [];
  const elements = descendantsNamed(root, format === 'mei' ? 'dir' : 'direction');
  return elements
    .filter((element) => starts.has(element.span.start) && saysPedalsOnly(element))
    .map(({ span }) => span);
};

const saysPedalsOnly = (element: XmlElement): boolean =>
  childrenNamed(element, 'direction-type')
    .flatMap((type) => type.children)
    .every(({ name }) => name === 'words' || name === 'symbol' || name === 'harp-pedals');
