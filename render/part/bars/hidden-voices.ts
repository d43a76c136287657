import { childrenNamed, descendantsNamed, type Span, type XmlElement } from '../../../engine/index.ts';
import { idsReferredTo } from './filler-rests.ts';

/**
 * Voices of MEI of which nothing is printed and whose notes have no lengths, as a program writes what it sounds for a trill:
 * the layout would take every note for a crotchet and keep room for all of them. One that a sign refers to stays.
 */
export const hiddenVoices = (root: XmlElement, staves: readonly string[]): readonly Span[] =>
  descendantsNamed(root, 'measure').flatMap((measure) => {
    const hidden = childrenNamed(measure, 'staff')
      .filter(({ attributes }) => staves.includes(attributes.n ?? ''))
      .map((staff) => childrenNamed(staff, 'layer'))
      .filter((layers) => layers.length > 1)
      .flat()
      .filter((layer) => isHidden(layer) && lacksLengths(layer));
    if (hidden.length === 0) return [];
    const hung = idsReferredTo(measure);
    return hidden
      .filter((layer) => eventsIn(layer).every(({ attributes }) => !hung.has(`#${attributes['xml:id']}`)))
      .map(({ span }) => span);
  });

const eventsIn = (layer: XmlElement): readonly XmlElement[] =>
  descendantsNamed(layer, 'note', 'chord', 'rest');

/** What holds events, and is seen by them. */
const HOLDERS: ReadonlySet<string> = new Set(['layer', 'beam', 'tuplet']);

const isHidden = ({ name, attributes, children }: XmlElement): boolean =>
  HOLDERS.has(name) ? children.every(isHidden) : name === 'space' || attributes.visible === 'false';

const lacksLengths = (layer: XmlElement): boolean =>
  eventsIn(layer).some(({ name, attributes }) => name === 'note' && attributes.dur === undefined);
