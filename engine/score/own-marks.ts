import type { XmlElement } from '../xml/tree.ts';

/** Every element that an annotation puts into a score bears an id that starts so. */
export const OWN_PREFIX = 'tringle-';

/** Whether an earlier annotation wrote an element: it says nothing that the score itself does not. */
export const isOwnElement = ({ attributes }: XmlElement): boolean =>
  (attributes['xml:id'] ?? attributes.id ?? '').startsWith(OWN_PREFIX);
