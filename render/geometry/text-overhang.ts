import { descendantsNamed, type XmlElement } from '../../engine/index.ts';
import { textBoxes } from './text-boxes.ts';

/** Words over the staff that the layout sets from their moment on, without a look at the margin. */
const FREE_TEXTS = new Set(['tempo', 'dir', 'reh']);

/**
 * Finds words that run over the right margin.
 *
 * @param rightEdge in the page's units
 * @returns how far each group (by its id) must move to the left
 */
export const findOverhangs = (svg: string, root: XmlElement, rightEdge: number): Map<string, number> => {
  const overhangs = new Map<string, number>();
  const visit = (element: XmlElement, originX: number): void => {
    const { id, class: name, transform } = element.attributes;
    const x =
      name === 'page-margin' ? Number(/translate\((-?[\d.]+)/.exec(transform ?? '')?.[1] ?? 0) : originX;
    if (id !== undefined && FREE_TEXTS.has(name ?? '')) {
      const texts = descendantsNamed(element, 'text').flatMap((text) => textBoxes(svg, text));
      const over = Math.max(0, ...texts.map((box) => x + box.x1 - rightEdge));
      if (over > 0) overhangs.set(id, over);
      return;
    }
    for (const each of element.children) visit(each, x);
  };
  visit(root, 0);
  return overhangs;
};
