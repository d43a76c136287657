import { descendantsNamed, type XmlElement } from '../../engine/index.ts';
import type { Box } from '../text/outline.ts';
import { type InkedGroups, inkOfGroups, kindOf, moveBox } from './drawn-groups.ts';
import { boxesMeet } from './outline-boxes.ts';

/** What the layout calls words, and dynamics. */
export const WORDS: readonly string[] = ['tempo', 'dir', 'reh'];
export const DYNAMIC = 'dynam';

/**
 * Words between and under the staves, which go neither up nor down.
 *
 * @param leaving where groups begin that are moved
 * @param passed ids of groups that are placed later
 */
export const wordsThatStay = (
  svg: string,
  root: XmlElement,
  leaving: ReadonlySet<number>,
  passed: ReadonlySet<string>,
): InkedGroups[] =>
  inkOfGroups(svg, root, (group) => {
    const isWords = WORDS.includes(kindOf(group)) || isInWords(group);
    return isWords && !leaving.has(group.span.start) && !passed.has(group.attributes.id ?? '');
  });

/** A dynamic in words, such as “dim.”, and not in the letters of the music font. */
export const isInWords = (group: XmlElement): boolean => {
  const stretches = kindOf(group) === DYNAMIC ? descendantsNamed(group, 'tspan') : [];
  const isMusic = ({ attributes }: XmlElement): boolean =>
    (attributes['font-family'] ?? '').includes('Bravura');
  return stretches.length > 0 && !stretches.some(isMusic);
};

/** Between a dynamic and the words after it, in vu. */
const AFTER_DYNAMIC_VU = 1.2;

/** How far to the right words go that the layout sets on a dynamic of the same moment: “p dim.”; 0 where they would touch as much there. */
export const shiftPastDynamic = (
  boxes: readonly Box[],
  dynamics: readonly Box[],
  settled: readonly Box[],
  unitsPerVu: number,
): number => {
  const met = dynamics.filter((dynamic) => boxes.some((box) => boxesMeet(box, dynamic)));
  if (met.length === 0) return 0;
  const past = Math.max(...met.map(({ x1 }) => x1)) + AFTER_DYNAMIC_VU * unitsPerVu;
  const by = past - Math.min(...boxes.map(({ x0 }) => x0));
  const touched = (dx: number): number =>
    settled.filter((other) => boxes.some((box) => boxesMeet(moveBox(box, { x: dx, y: 0 }), other))).length;
  return touched(by) < touched(0) ? by : 0;
};
