import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import type { Box } from '../../text/outline.ts';
import { kindOf } from '../drawn-groups.ts';
import { type DrawnPage, groupsOfKinds, inkOf } from './drawn-page.ts';
import { joinBoxes, type Margins, upAndDown, type Ways } from './free-place.ts';
import { type Movable, NO_SHIFT } from './movable.ts';

const BRACKET = 'tupletBracket';
export const TUPLET_SIGNS: ReadonlySet<string> = new Set(['tupletNum', BRACKET]);

const MARGINS: Margins = { besideVu: 0.8, aboveVu: 0.3 };
const FARTHEST_VU = 7;

/** The figures of tuplets with their brackets, each of which goes away from its notes. */
export const findTupletFigures = (page: DrawnPage): Movable[] => {
  const beams = new Map<XmlElement, XmlElement>();
  for (const beam of groupsOfKinds(page, new Set(['beam'])))
    for (const tuplet of tupletsIn(beam)) beams.set(tuplet, beam);
  return tupletsIn(page.root).flatMap((tuplet) => {
    const signs = tuplet.children.filter((each) => TUPLET_SIGNS.has(kindOf(each)));
    const boxes = signs.flatMap((sign) => inkOf(page, sign));
    const heads = descendantsNamed(tuplet, 'g')
      .filter((each) => kindOf(each) === 'notehead')
      .flatMap((head) => inkOf(page, head));
    if (boxes.length === 0 || heads.length === 0) return [];
    const away = upAndDown([middleOf(boxes) < middleOf(heads) ? -1 : 1], FARTHEST_VU);
    const bars = signs.some((sign) => kindOf(sign) === BRACKET)
      ? []
      : beamsOver(tuplet, beams.get(tuplet)).flatMap((bar) => inkOf(page, bar));
    return [
      {
        groups: signs.map((group) => ({ group, shift: NO_SHIFT })),
        boxes,
        ways: [...nearerToBeam(bars, boxes, page.unitsPerVu), ...away],
        margins: MARGINS,
        clearOf: 'ink',
        otherwise: 'touch-least',
      },
    ];
  });
};

const tupletsIn = (element: XmlElement): XmlElement[] =>
  descendantsNamed(element, 'g').filter((group) => kindOf(group) === 'tuplet');

/** The bars of the beams that a tuplet holds, or that hold it. */
const beamsOver = (tuplet: XmlElement, around: XmlElement | undefined): XmlElement[] => {
  const own = descendantsNamed(tuplet, 'g').filter((group) => kindOf(group) === 'beam');
  return [...own, ...(around === undefined ? [] : [around])].flatMap(({ children }) =>
    children.filter(({ name }) => name === 'polygon'),
  );
};

const middleOf = (boxes: readonly Box[]): number =>
  boxes.reduce((sum, { y0, y1 }) => sum + (y0 + y1) / 2, 0) / boxes.length;

/** A figure farther from its beam than this, in vu, is taken for that of other notes. */
const FAR_VU = 4;
const BESIDE_BEAM_VU = 0.6;
/** From where it would be nearer it may be moved away again so far. */
const STILL_NEAR_VU = 4;

/**
 * Where the figure of a tuplet without a bracket stands far from its beam, as the layout leaves it with a group that goes
 * through both staves, it comes to the same side of the beam.
 *
 * @returns no ways where it is near, or has no beam over or under it
 */
const nearerToBeam = (beams: readonly Box[], figure: readonly Box[], unitsPerVu: number): Ways => {
  const own = joinBoxes(figure);
  const over = beams.filter((box) => box.x0 < own.x1 && own.x0 < box.x1);
  if (over.length === 0) return [];
  const beam = joinBoxes(over);
  const waysFrom = (down: number, direction: -1 | 1): Ways =>
    upAndDown([direction], STILL_NEAR_VU).map(({ x, y }) => ({ x, y: down / unitsPerVu + y }));
  const [far, beside] = [FAR_VU * unitsPerVu, BESIDE_BEAM_VU * unitsPerVu];
  if (own.y0 - beam.y1 > far) return waysFrom(beam.y1 + beside - own.y0, 1);
  if (beam.y0 - own.y1 > far) return waysFrom(beam.y0 - beside - own.y1, -1);
  return [];
};
