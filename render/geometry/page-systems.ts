import type { XmlElement } from '../../engine/index.ts';
import { type Point, readPoints } from './outline-boxes.ts';
import { readTransform } from './transform.ts';

/** From left to right, in the coordinates inside the page's margins. */
export interface Stretch {
  readonly x0: number;
  readonly x1: number;
}

/** One line of music on a page, in the page's units. */
export interface PageSystem {
  /** Ids of its bars, in order. */
  readonly bars: readonly string[];
  /** Top of the first staff's and bottom of the last staff's lines. */
  readonly staffTop: number;
  readonly staffBottom: number;
}

/** The bars of a page by their ids. */
export type BarStretches = ReadonlyMap<string, Stretch>;

/** The skeleton of a page. */
export interface PageSystems {
  readonly systems: readonly PageSystem[];
  readonly bars: BarStretches;
  /** Where the coordinates inside the page's margins begin. */
  readonly origin: Point;
}

/** Reads where the lines of music stand on a page of Verovio's. */
export const readSystems = (root: XmlElement): PageSystems => {
  const systems: PageSystem[] = [];
  const bars = new Map<string, Stretch>();
  let origin: Point = { x: 0, y: 0 };
  const visit = (element: XmlElement): void => {
    if (element.attributes.class === 'page-margin') {
      const { e, f } = readTransform(element.attributes.transform);
      origin = { x: e, y: f };
    }
    if (element.attributes.class === 'system') systems.push(readSystem(element, origin.y, bars));
    else for (const each of element.children) visit(each);
  };
  visit(root);
  return { systems, bars, origin };
};

const readSystem = (system: XmlElement, originY: number, stretches: Map<string, Stretch>): PageSystem => {
  const bars: string[] = [];
  let staffTop = Number.POSITIVE_INFINITY;
  let staffBottom = Number.NEGATIVE_INFINITY;
  const visit = (element: XmlElement): void => {
    const { class: name, id } = element.attributes;
    if (name === 'measure' && id !== undefined) bars.push(id);
    if (name !== 'staff') for (const each of element.children) visit(each);
    else {
      // A staff's lines are its own paths; what stands on it is in groups.
      for (const line of element.children.filter((each) => each.name === 'path')) {
        const [from, to] = readPoints(line.attributes.d ?? '');
        const y = originY + (from?.y ?? 0);
        const bar = bars.at(-1);
        if (bar !== undefined && from !== undefined && to !== undefined)
          stretches.set(bar, { x0: from.x, x1: to.x });
        staffTop = Math.min(staffTop, y);
        staffBottom = Math.max(staffBottom, y);
      }
    }
  };
  visit(system);
  return { bars, staffTop, staffBottom };
};
