import type { XmlElement } from '../../../engine/index.ts';

/** What stands in a voice and takes time, or adorns what does. */
export interface LayerEvent {
  readonly element: XmlElement;
  /** Where something goes that is to stand before it: before the beam or tuplet that begins with it. */
  readonly before: number;
}

/** What holds events together. */
const WRAPPERS: ReadonlySet<string> = new Set(['beam', 'tuplet', 'graceGrp']);

/** What stands between events. */
const SIGNS: ReadonlySet<string> = new Set(['clef', 'barLine']);

/** The events of a layer, in the order of the text. */
export const layerEvents = ({ children }: XmlElement, begins?: number): LayerEvent[] => {
  const events: LayerEvent[] = [];
  for (const element of children) {
    if (SIGNS.has(element.name)) continue;
    const before = events.length === 0 ? (begins ?? element.span.start) : element.span.start;
    if (WRAPPERS.has(element.name)) events.push(...layerEvents(element, before));
    else events.push({ element, before });
  }
  return events;
};

/** A grace note, or a chord of them. */
export const isGrace = ({ attributes, name, children }: XmlElement): boolean =>
  attributes.grace !== undefined ||
  (name === 'chord' && children.some(({ attributes: { grace } }) => grace !== undefined));

/**
 * How long an event lasts, in the divisions of the file that was converted.
 *
 * @returns null where the conversion does not say, as of a rest of the whole bar
 */
export const ticksOf = (element: XmlElement): number | null => {
  if (isGrace(element)) return 0;
  const own = element.attributes['dur.ppq'];
  if (own !== undefined) return Number(own);
  const held = element.children.filter(({ name }) => name === 'note' || name === 'chord').map(ticksOf);
  if (held.length === 0) return null;
  return held.reduce((sum, each) => (sum === null || each === null ? null : sum + each), 0);
};
