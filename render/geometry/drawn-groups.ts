import { descendantsNamed, type XmlElement } from '../../engine/index.ts';
import type { Box } from '../text/outline.ts';
import { findObstacles, type ObstacleSearch } from './obstacles.ts';
import type { Point } from './outline-boxes.ts';
import { readSystems } from './page-systems.ts';

/** Groups that the layout has drawn, and the boxes of their ink in the page's units. */
export interface InkedGroups {
  readonly groups: readonly XmlElement[];
  readonly boxes: readonly Box[];
}

/** What the layout calls a group. */
export const kindOf = ({ attributes }: XmlElement): string => (attributes.class ?? '').split(' ')[0]!;

export const EVERYTHING: ObstacleSearch = {
  skipped: new Set(),
  moved: new Map(),
  zones: [{ y0: Number.NEGATIVE_INFINITY, y1: Number.POSITIVE_INFINITY }],
  passable: new Set(),
};

/** The groups that are wanted, each with its ink. */
export const inkOfGroups = (
  svg: string,
  root: XmlElement,
  isWanted: (group: XmlElement) => boolean,
): InkedGroups[] => {
  const { origin } = readSystems(root);
  return descendantsNamed(root, 'g')
    .filter(isWanted)
    .map((group) => ({
      groups: [group],
      boxes: findObstacles(svg, group, EVERYTHING).map(({ box }) => moveBox(box, origin)),
    }));
};

export const moveBox = ({ x0, y0, x1, y1 }: Box, { x, y }: Point): Box => ({
  x0: x0 + x,
  y0: y0 + y,
  x1: x1 + x,
  y1: y1 + y,
});
