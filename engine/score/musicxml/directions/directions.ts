import type { Rational } from '../../../music/rational.ts';
import { childrenNamed, firstChild, type XmlElement } from '../../../xml/tree.ts';
import { addTime, readLength } from '../values.ts';
import type { BarItem } from '../walk-bar.ts';

/** Where a direction is printed: its place in the bar, moved by its offset (MusicXML 4.0, `offset`). May be negative. */
export const offsetOf = ({ element, at, divisions }: BarItem): Rational => {
  const offset = firstChild(element, 'offset');
  return offset === undefined
    ? at
    : addTime(at, readLength(offset, divisions, 'offset', true), offset, 'offset');
};

/**
 * Where the sound of a direction or of a lone `sound` element changes: its own offset counts, else that of the
 * direction if it is meant for sound (MusicXML 4.0, `sound` and `offset`).
 */
export const soundPlaceOf = (item: BarItem): Rational => {
  const sound = item.element.name === 'sound' ? item.element : firstChild(item.element, 'sound');
  if (sound !== undefined && firstChild(sound, 'offset') !== undefined)
    return offsetOf({ ...item, element: sound });
  const offset = firstChild(item.element, 'offset');
  return offset?.attributes.sound === 'yes' ? offsetOf(item) : item.at;
};

export const soundOf = (element: XmlElement): XmlElement | undefined =>
  element.name === 'sound' ? element : firstChild(element, 'sound');

/** The elements inside the direction's types. */
export const typesOf = (direction: XmlElement): readonly XmlElement[] => {
  const types = childrenNamed(direction, 'direction-type');
  return types.length === 1 ? types[0]!.children : types.flatMap((type) => type.children);
};

/** All words of a direction, white space folded. */
export const wordsIn = (direction: XmlElement): string =>
  typesOf(direction)
    .filter((each) => each.name === 'words')
    .map((each) => each.text)
    .join(' ')
    .replace(/\s+/gu, ' ')
    .trim();
