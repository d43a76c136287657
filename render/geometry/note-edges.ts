import type { XmlElement } from '../../engine/index.ts';
import { readTransform } from './transform.ts';

const EVENTS: ReadonlySet<string> = new Set(['note', 'rest', 'mRest', 'multiRest']);

/**
 * The left edge of every note and rest of a page by its id, in the coordinates inside the page's margins: a glyph's
 * origin is its left edge.
 */
export const readNoteEdges = (root: XmlElement): ReadonlyMap<string, number> => {
  const edges = new Map<string, number>();
  const visit = (element: XmlElement, event: string | null): void => {
    const { class: name = '', id, transform } = element.attributes;
    if (element.name === 'use' && event !== null) {
      if (!edges.has(event)) edges.set(event, readTransform(transform).e);
      return;
    }
    // Accidentals and dots of a note stand beside it.
    if (name === 'accid' || name === 'dots') return;
    const inner = id !== undefined && EVENTS.has(name.split(' ')[0]!) ? id : event;
    for (const each of element.children) visit(each, inner);
  };
  visit(root, null);
  return edges;
};
