import { describe, expect, it } from 'vitest';
import { parseXml } from '../../../engine/xml/parse-xml.ts';
import { findObstacles } from '../../../render/geometry/obstacles.ts';
import { curveBoxes, pathBoxes } from '../../../render/geometry/outline-boxes.ts';
import { readSystems } from '../../../render/geometry/page-systems.ts';
import { applyMatrix, compose, readTransform } from '../../../render/geometry/transform.ts';

const EVERYWHERE = [{ y0: Number.NEGATIVE_INFINITY, y1: Number.POSITIVE_INFINITY }];

const treeOf = (svg: string) => {
  const parsed = parseXml(svg);
  if (!parsed.ok) throw new Error(svg);
  return parsed.value;
};

const obstaclesIn = (inside: string, zones = EVERYWHERE) => {
  const svg = `<svg><g class="page-margin" transform="translate(100, 50)">${inside}</g></svg>`;
  return findObstacles(svg, treeOf(svg), {
    skipped: new Set(['ours']),
    moved: new Map(
      svg.includes('"moved"') ? [[svg.lastIndexOf('<g', svg.indexOf('"moved"')), { dx: -30, dy: 0 }]] : [],
    ),
    zones,
    passable: new Set(['barLine']),
  });
};

describe('a transform', () => {
  it('is read in the order in which SVG applies it', () => {
    expect(applyMatrix(readTransform('translate(10, 20) scale(2)'), 3, 4)).toEqual({ x: 16, y: 28 });
    expect(applyMatrix(readTransform(undefined), 3, 4)).toEqual({ x: 3, y: 4 });
  });

  it('turns about the point named', () => {
    const { x, y } = applyMatrix(readTransform('rotate(-90 10,10)'), 20, 10);
    expect([x, y].map(Math.round)).toEqual([10, 0]);
  });

  it('inside another counts first', () => {
    const both = compose(readTransform('translate(5, 0)'), readTransform('scale(3, 3)'));
    expect(applyMatrix(both, 1, 1)).toEqual({ x: 8, y: 3 });
  });

  it('of a kind that the layout does not write is a bug', () => {
    expect(() => readTransform('skewX(3)')).toThrow(/skewX/);
  });
});

describe('a curve', () => {
  it('is held by its boxes and leaves the space under it free', () => {
    const boxes = curveBoxes([
      { x: 0, y: 0 },
      { x: 0, y: -100 },
      { x: 100, y: -100 },
      { x: 100, y: 0 },
    ]);
    const top = Math.min(...boxes.map(({ y0 }) => y0));
    expect(top).toBeCloseTo(-75, 6);
    // Nothing reaches into the middle under the arch.
    expect(boxes.some(({ x0, x1, y1 }) => x0 < 50 && x1 > 50 && y1 > -40)).toBe(false);
  });

  it('in a path goes on from where the last one ended', () => {
    const boxes = pathBoxes('M0 0 L10 0 C10,5 10,5 10,10 Z');
    expect(Math.max(...boxes.map(({ y1 }) => y1))).toBeCloseTo(10, 6);
  });

  it('of one control point is the same as its cubic form', () => {
    const highest = (boxes: ReturnType<typeof pathBoxes>) => Math.min(...boxes.map(({ y0 }) => y0));
    expect(highest(pathBoxes('M0 0 Q50 -100 100 0'))).toBeCloseTo(-50, 6);
  });
});

describe('obstacles on a page', () => {
  it('are told by what the layout calls them, in the coordinates of the page', () => {
    const [found] = obstaclesIn(
      '<g class="system"><g class="note"><rect x="1" y="2" width="3" height="4"/></g></g>',
    );
    expect(found).toEqual({ kind: 'note', box: { x0: 101, y0: 52, x1: 104, y1: 56 } });
  });

  it('are not our own, nor what may be crossed, nor what lies far off', () => {
    const rect = '<rect x="0" y="0" width="9" height="9"/>';
    expect(obstaclesIn(`<g id="ours" class="harm">${rect}</g><g class="barLine">${rect}</g>`)).toEqual([]);
    expect(obstaclesIn(`<g class="slur">${rect}</g>`, [{ y0: 300, y1: 400 }])).toEqual([]);
    expect(obstaclesIn(`<g class="slur">${rect}</g>`, [{ y0: 55, y1: 56 }])).toHaveLength(1);
  });

  it('stand where moved words are drawn', () => {
    const [found] = obstaclesIn('<g id="moved" class="tempo"><rect x="50" y="0" width="9" height="9"/></g>');
    expect(found!.box.x0).toBe(120);
  });

  it('include glyphs by the code point in their name', () => {
    const glyph = (code: string) =>
      obstaclesIn(
        `<g class="notehead"><use xlink:href="#${code}-x1" xmlns:xlink="l" transform="translate(0, 0) scale(1, 1)"/></g>`,
      );
    const [head] = glyph('E0A4');
    // The black notehead of the font is about a staff space (250 units) high, centred on its line.
    expect(head!.box.y1 - head!.box.y0).toBeGreaterThan(240);
    expect(head!.box.y1 - head!.box.y0).toBeLessThan(300);
    expect(glyph('F8FE')).toEqual([]);
  });
});

describe('systems on a page', () => {
  it('are told with their bars and the height of their staves', () => {
    const lines = (y: number) => [0, 10, 20].map((dy) => `<path d="M0 ${y + dy} L99 ${y + dy}"/>`).join('');
    const svg = `<svg><g class="page-margin" transform="translate(7, 3)"><g class="system"><g class="measure" id="b1">
      <g class="staff">${lines(100)}<g class="clef"><path d="M0 -500 L1 -500"/></g></g><g class="staff">${lines(200)}</g>
      </g><g class="measure" id="b2"></g></g></g></svg>`;
    expect(readSystems(treeOf(svg))).toEqual({
      origin: { x: 7, y: 3 },
      bars: new Map([['b1', { x0: 0, x1: 99 }]]),
      systems: [{ bars: ['b1', 'b2'], staffTop: 103, staffBottom: 223 }],
    });
  });
});
