import { childrenNamed, descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import { type Edit, setAttribute } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/**
 * Rests that only pad a voice are hidden: those of a voice that rests all through a bar while another voice of its staff
 * plays, or while all of them rest, as the first then shows. Where a sign such as a fermata hangs on one, the voice stays.
 *
 * @param guests `n` of staves, by measure, on which notes of another staff are written
 */
export const fillerRestEdits = (
  { root, staves, text }: LayoutMei,
  guests: ReadonlyMap<XmlElement, string> = new Map(),
): Edit[] =>
  descendantsNamed(root, 'measure').flatMap((measure) => {
    const hung = idsReferredTo(measure);
    return childrenNamed(measure, 'staff')
      .filter(({ attributes }) => staves.includes(attributes.n ?? ''))
      .flatMap((staff) => fillersIn(staff, guests.get(measure) === staff.attributes.n))
      .filter((layer) => restsIn(layer).every((rest) => !hung.has(`#${rest.attributes['xml:id']}`)))
      .flatMap((layer) => hideRests(layer, text));
  });

/** What signs of a measure refer to: ids, each after `#`. */
export const idsReferredTo = ({ children }: XmlElement): ReadonlySet<string> =>
  new Set(
    children
      .flatMap(({ attributes }) => [attributes.startid, attributes.endid, attributes.plist])
      .flatMap((ids) => ids?.split(/\s+/) ?? []),
  );

const RESTS = { rest: 'space', mRest: 'mSpace' } as const;

const restsIn = (layer: XmlElement): readonly XmlElement[] => descendantsNamed(layer, ...Object.keys(RESTS));

/** The layers of a staff that add nothing to it but rests. */
const fillersIn = (staff: XmlElement, hasGuests: boolean): readonly XmlElement[] => {
  const layers = childrenNamed(staff, 'layer');
  const silent = layers.filter(isSilent);
  return silent.length < layers.length || hasGuests
    ? silent
    : silent.filter((layer) => restsIn(layer).length > 0).slice(1);
};

/** What may stand in a layer that plays nothing. */
const QUIET: ReadonlySet<string> = new Set(['rest', 'mRest', 'space', 'mSpace', 'tuplet', 'beam', 'clef']);

const isSilent = (element: XmlElement): boolean =>
  element.children.every((each) => QUIET.has(each.name) && isSilent(each));

const hideRests = (layer: XmlElement, text: string): Edit[] => [
  ...restsIn(layer).flatMap((rest) => rename(rest, text)),
  ...descendantsNamed(layer, 'tuplet').flatMap(({ span }) => [
    setAttribute(text, span.start, 'num.visible', 'false'),
    setAttribute(text, span.start, 'bracket.visible', 'false'),
  ]),
];

/** The rest as an empty element, which keeps its attributes. */
const rename = ({ name, span, inner }: XmlElement, text: string): Edit[] => {
  const start = span.start + 1;
  const put = RESTS[name as keyof typeof RESTS];
  const tag: Edit = { start, end: start + name.length, put };
  if (!text.startsWith(name, start)) return [];
  return inner.end === span.end ? [tag] : [tag, { start: inner.start - 1, end: span.end, put: '/>' }];
};
