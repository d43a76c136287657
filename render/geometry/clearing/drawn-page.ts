import { descendantsNamed, type XmlElement } from '../../../engine/index.ts';
import type { Box } from '../../text/outline.ts';
import { EVERYTHING, kindOf, moveBox } from '../drawn-groups.ts';
import type { MovedGroups } from '../moved-groups.ts';
import { findObstacles } from '../obstacles.ts';
import type { Point } from '../outline-boxes.ts';
import { readSystems } from '../page-systems.ts';
import { joinBoxes } from './free-place.ts';

/** A system as the layout drew it, with what is needed to look at its ink. */
export interface DrawnPage {
  readonly svg: string;
  readonly root: XmlElement;
  readonly origin: Point;
  readonly unitsPerVu: number;
  /** The top line of the first staff; over it is the free space over the system. */
  readonly staffTop: number;
  /** The staves with the space between their lines, a box for each in each bar. */
  readonly staves: readonly Box[];
  /** Words that run over the margin. */
  readonly overhangs: MovedGroups;
  /** Ids of groups that are passed over: they are placed later. */
  readonly passed: ReadonlySet<string>;
}

export const readDrawnPage = (page: Omit<DrawnPage, 'origin' | 'staves'>): DrawnPage => {
  const { origin } = readSystems(page.root);
  const staves = descendantsNamed(page.root, 'g')
    .filter((group) => kindOf(group) === 'staff')
    .flatMap((staff) => {
      const lines = staff.children
        .filter(({ name }) => name === 'path')
        .flatMap((line) => inkOf({ ...page, origin }, line));
      return lines.length === 0 ? [] : [joinBoxes(lines)];
    });
  return { ...page, origin, staves };
};

/** The ink of a group, in the page's units. */
export const inkOf = ({ origin, svg }: Pick<DrawnPage, 'origin' | 'svg'>, group: XmlElement): Box[] =>
  findObstacles(svg, group, EVERYTHING).map(({ box }) => moveBox(box, origin));

/** Whether something stands over the first staff. */
export const isOver = (boxes: readonly Box[], { staffTop }: DrawnPage): boolean =>
  boxes.every(({ y1 }) => y1 < staffTop);

/** Whether something stands under the last staff. */
export const isUnder = (boxes: readonly Box[], { staves }: DrawnPage): boolean => {
  const bottom = Math.max(...staves.map(({ y1 }) => y1));
  return staves.length > 0 && boxes.every(({ y0 }) => y0 > bottom);
};

/** The groups of some kinds that are not placed later. */
export const groupsOfKinds = ({ passed, root }: DrawnPage, kinds: ReadonlySet<string>): XmlElement[] =>
  descendantsNamed(root, 'g').filter(
    (group) => kinds.has(kindOf(group)) && !passed.has(group.attributes.id ?? ''),
  );
