import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import type { Shift } from '../moved-groups.ts';
import { textBoxes } from '../text-boxes.ts';

/** Words over the staff that the layout sets from their moment on, without a look at the margin. */
const FREE_TEXTS = new Set(['tempo', 'dir', 'reh']);

/**
 * Finds words that run over the right margin.
 *
 * @param rightEdge in the page's units
 * @returns the groups that must move to the left
 */
export const findOverhangs = (svg: string, root: XmlElement, rightEdge: number): Map<number, Shift> => {
  const overhangs = new Map<number, Shift>();
  const visit = (element: XmlElement, originX: number): void => {
    const { class: name, transform } = element.attributes;
    const x =
      name === 'page-margin' ? Number(/translate\((-?[\d.]+)/.exec(transform ?? '')?.[1] ?? 0) : originX;
    if (FREE_TEXTS.has(name ?? '')) {
      const texts = descendantsNamed(element, 'text').flatMap((text) => textBoxes(svg, text));
      const over = Math.max(0, ...texts.map((box) => x + box.x1 - rightEdge));
      if (over > 0) overhangs.set(element.span.start, { dx: -over, dy: 0 });
      return;
    }
    for (const each of element.children) visit(each, x);
  };
  visit(root, 0);
  return overhangs;
};
