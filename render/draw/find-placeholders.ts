import { firstChild, type Span, type XmlElement } from '../../engine/index.ts';

/** Where a placeholder's text was put, in the units and the coordinates of its surroundings on the page. */
export interface PlacedPlaceholder {
  readonly id: string;
  readonly x: number;
  readonly y: number;
  /** Whether `x` is the middle of the text, its left or its right edge. */
  readonly anchor: 'start' | 'middle' | 'end';
  /** Id of the bar in which it stands; null outside all. */
  readonly bar: string | null;
  /** The whole group in the page's text, to be replaced by the drawing. */
  readonly span: Span;
}

/** Finds placeholders on a laid-out page: Verovio writes each as a group of our id with one line of text. */
export const findPlaceholders = (root: XmlElement, ids: ReadonlySet<string>): PlacedPlaceholder[] => {
  const found: PlacedPlaceholder[] = [];
  const visit = (element: XmlElement, outer: string | null): void => {
    const { id, class: name } = element.attributes;
    const bar = name === 'measure' ? (id ?? null) : outer;
    const text = name === 'harm' && id !== undefined ? firstChild(element, 'text') : undefined;
    if (text === undefined || id === undefined || !ids.has(id)) {
      for (const each of element.children) visit(each, bar);
      return;
    }
    found.push({
      id,
      x: Number(text.attributes.x),
      y: Number(text.attributes.y),
      anchor: anchorOf(text.attributes['text-anchor']),
      bar,
      span: element.span,
    });
  };
  visit(root, null);
  return found;
};

const anchorOf = (value: string | undefined): PlacedPlaceholder['anchor'] =>
  value === 'middle' || value === 'end' ? value : 'start';
