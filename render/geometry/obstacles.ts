import type { XmlElement } from '../../engine/index.ts';
import { glyphPath, hasGlyph } from '../text/glyphs.ts';
import type { Box } from '../text/outline.ts';
import type { MovedGroups } from './moved-groups.ts';
import { boxAround, lineBoxes, type Point, pathBoxes, readPoints, slopeBoxes } from './outline-boxes.ts';
import { textBoxes } from './text-boxes.ts';
import { applyMatrix, compose, IDENTITY, type Matrix, readTransform } from './transform.ts';

/** Ink on a page that a drawing of ours must keep clear of. */
export interface Obstacle {
  /** The class of the nearest group that Verovio names, such as `notehead` or `slur`. */
  readonly kind: string;
  /** In the page's units; a curve has a box for each of its stretches. */
  readonly box: Box;
}

/** What counts as an obstacle. */
export interface ObstacleSearch {
  /** Ids of groups that are passed over with what they hold. */
  readonly skipped: ReadonlySet<string>;
  readonly moved: MovedGroups;
  /** Heights of interest, in the page's units: ink that lies outside them all is left out. */
  readonly zones: readonly Zone[];
  /** Kinds that may be crossed. */
  readonly passable: ReadonlySet<string>;
}

export interface Zone {
  readonly y0: number;
  readonly y1: number;
}

/** Groups that say where something is but not what: what they hold is named by an outer or inner group. */
const NOT_KINDS = new Set(['rend', 'text', 'layer', 'page-margin', 'definition-scale', 'num', 'lb']);

const INKED = new Set(['path', 'rect', 'use', 'ellipse', 'polygon', 'polyline', 'text']);

/**
 * Measures what stands on a page of Verovio's: glyphs by Bravura's metrics, words by Tinos', lines and curves by their
 * own coordinates. Linear in the page.
 *
 * @param svg the text that `root` was parsed from
 */
export const findObstacles = (svg: string, root: XmlElement, search: ObstacleSearch): Obstacle[] => {
  const found: Obstacle[] = [];
  const visit = (element: XmlElement, kind: string, above: Matrix): void => {
    const { id, class: name, transform } = element.attributes;
    if (element.name === 'defs' || (id !== undefined && search.skipped.has(id))) return;
    if (INKED.has(element.name)) {
      if (search.passable.has(kind)) return;
      for (const box of boxesInZones(svg, element, above, search.zones)) found.push({ kind, box });
      return;
    }
    const own = name?.split(' ')[0] ?? '';
    const inner = own === '' || NOT_KINDS.has(own) ? kind : own;
    const placed = transform === undefined ? above : compose(above, readTransform(transform));
    const shift = search.moved.get(element.span.start);
    const matrix =
      shift === undefined ? placed : { ...placed, e: placed.e + shift.dx, f: placed.f + shift.dy };
    for (const each of element.children) visit(each, inner, matrix);
  };
  visit(root, 'page', IDENTITY);
  return found;
};

/** Most of a page lies far from every zone and is passed over after a rough look. */
const boxesInZones = (svg: string, element: XmlElement, above: Matrix, zones: readonly Zone[]): Box[] => {
  const { transform } = element.attributes;
  const isNear = ({ y0, y1 }: Box): boolean => zones.some((zone) => y0 < zone.y1 && zone.y0 < y1);
  const rough = roughBox(element);
  if (rough !== null && !isNear(transformBox(rough, above))) return [];
  const matrix = transform === undefined ? above : compose(above, readTransform(transform));
  return ownBoxes(svg, element)
    .map((box) => transformBox(box, matrix))
    .filter(isNear);
};

/** No glyph reaches farther from its origin than this, in the page's units: four centimetres. */
const GLYPH_REACH = 4000;

/**
 * A box that holds the element whatever its curves or its glyph do, in the coordinates of its surroundings; null where
 * it is no less work to measure it.
 */
const roughBox = ({ name, attributes: { d, points, transform } }: XmlElement): Box | null => {
  if (name === 'use') {
    const place = /^translate\((-?[\d.]+),? (-?[\d.]+)\)/.exec(transform ?? '');
    if (place === null) return null;
    const [x, y] = [Number(place[1]), Number(place[2])];
    return { x0: x - GLYPH_REACH, y0: y - GLYPH_REACH, x1: x + GLYPH_REACH, y1: y + GLYPH_REACH };
  }
  const list = name === 'path' ? d : points;
  return list === undefined || transform !== undefined ? null : boxAround(readPoints(list));
};

const transformBox = ({ x0, y0, x1, y1 }: Box, matrix: Matrix): Box => {
  const { a, b, c, d, e, f } = matrix;
  if (b === 0 && c === 0 && a > 0 && d > 0) {
    return { x0: a * x0 + e, y0: d * y0 + f, x1: a * x1 + e, y1: d * y1 + f };
  }
  return boxAround([
    applyMatrix(matrix, x0, y0),
    applyMatrix(matrix, x1, y0),
    applyMatrix(matrix, x0, y1),
    applyMatrix(matrix, x1, y1),
  ]);
};

const ownBoxes = (svg: string, element: XmlElement): Box[] => {
  const { attributes } = element;
  switch (element.name) {
    case 'use':
      return glyphBoxes(attributes['xlink:href'] ?? attributes.href ?? '');
    case 'path':
      return pathBoxes(attributes.d ?? '');
    case 'polygon':
      return polygonBoxes(readPoints(attributes.points ?? ''));
    case 'polyline': {
      const points = readPoints(attributes.points ?? '');
      return points.slice(1).flatMap((point, i) => lineBoxes(points[i]!, point));
    }
    case 'text':
      return textBoxes(svg, element);
    case 'ellipse': {
      const [cx, cy, rx, ry] = [attributes.cx, attributes.cy, attributes.rx, attributes.ry].map(Number);
      return [{ x0: cx! - rx!, y0: cy! - ry!, x1: cx! + rx!, y1: cy! + ry! }];
    }
    default: {
      const [x, y, width, height] = [attributes.x, attributes.y, attributes.width, attributes.height].map(
        Number,
      );
      return [{ x0: x!, y0: y!, x1: x! + width!, y1: y! + height! }];
    }
  }
};

/** Verovio names its symbols by code point: `#E0A4-` and a suffix. */
const glyphBoxes = (reference: string): Box[] => {
  const code = Number.parseInt(reference.slice(1, reference.indexOf('-')), 16);
  return Number.isNaN(code) || !hasGlyph(code) ? [] : [glyphPath(code).box];
};

/** A beam is a bar of four corners, upper edge first; anything else is boxed as a whole. */
const polygonBoxes = (points: readonly Point[]): Box[] => {
  const [a, b, c, d] = points;
  if (points.length !== 4 || a!.x !== d!.x || b!.x !== c!.x)
    return points.length === 0 ? [] : [boxAround(points)];
  return slopeBoxes([a!, b!], [d!, c!]);
};
