import { firstChild, type Span, type XmlElement } from '../../engine/index.ts';

/** Where a placeholder's text was put, in the units and the coordinates of its surroundings on the page. */
export interface PlacedPlaceholder {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  /** Whether `x` is the middle of the text or its left edge. */
  readonly anchor: 'middle' | 'start';
  /** The whole group in the page's text, to be replaced by the drawing. */
  readonly span: Span;
}

/** Finds placeholders on a laid-out page: Verovio writes each as a group of our id with one line of text. */
export const findPlaceholders = (root: XmlElement, ids: ReadonlySet<string>): PlacedPlaceholder[] => {
  const found: PlacedPlaceholder[] = [];
  const visit = (element: XmlElement): void => {
    const id = element.attributes.id;
    const text =
      element.attributes.class === 'harm' && id !== undefined ? firstChild(element, 'text') : undefined;
    if (text === undefined || id === undefined || !ids.has(id)) {
      for (const each of element.children) visit(each);
      return;
    }
    found.push({
      id,
      x: Number(text.attributes.x),
      y: Number(text.attributes.y),
      anchor: text.attributes['text-anchor'] === 'middle' ? 'middle' : 'start',
      span: element.span,
    });
  };
  visit(root);
  return found;
};
