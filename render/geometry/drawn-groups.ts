import type { XmlElement } from '../../engine/index.ts';
import type { Box } from '../text/outline.ts';
import type { ObstacleSearch } from './obstacles.ts';
import type { Point } from './outline-boxes.ts';

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

export const moveBox = ({ x0, y0, x1, y1 }: Box, { x, y }: Point): Box => ({
  x0: x0 + x,
  y0: y0 + y,
  x1: x1 + x,
  y1: y1 + y,
});
