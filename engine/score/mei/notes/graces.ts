import type { XmlElement } from '../../../xml/tree.ts';

/** Whether an element is a grace (MEI 5.1, att.graced) and its stem is slashed; null where it is none. */
export const graceOf = (element: XmlElement): 'slashed' | 'plain' | null => {
  const grace = element.attributes.grace?.trim();
  if (grace === undefined || grace === '') return null;
  return grace === 'unacc' || element.attributes['stem.mod']?.endsWith('slash') === true
    ? 'slashed'
    : 'plain';
};
