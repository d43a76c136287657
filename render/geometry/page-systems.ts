import type { XmlElement } from '../../engine/index.ts';
import { type Point, readPoints } from './outline-boxes.ts';
import { readTransform } from './transform.ts';

/** One line of music on a page, in the page's units. */
export interface PageSystem {
  /** Ids of its bars, in order. */
  readonly bars: readonly string[];
  /** Top of the first staff's and bottom of the last staff's lines. */
  readonly staffTop: number;
  readonly staffBottom: number;
}

/** The skeleton of a page. */
export interface PageSystems {
  readonly systems: readonly PageSystem[];
  /** Where the coordinates inside the page's margins begin. */
  readonly origin: Point;
}

/** Reads where the lines of music stand on a page of Verovio's. */
export const readSystems = (root: XmlElement): PageSystems => {
  const systems: PageSystem[] = [];
  let origin: Point = { x: 0, y: 0 };
  const visit = (element: XmlElement): void => {
    if (element.attributes.class === 'page-margin') {
      const { e, f } = readTransform(element.attributes.transform);
      origin = { x: e, y: f };
    }
    if (element.attributes.class === 'system') systems.push(readSystem(element, origin.y));
    else for (const each of element.children) visit(each);
  };
  visit(root);
  return { systems, origin };
};

const readSystem = (system: XmlElement, originY: number): PageSystem => {
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
        const y = originY + (readPoints(line.attributes.d ?? '')[0]?.y ?? 0);
        staffTop = Math.min(staffTop, y);
        staffBottom = Math.max(staffBottom, y);
      }
    }
  };
  visit(system);
  return { bars, staffTop, staffBottom };
};
