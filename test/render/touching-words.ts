import { descendantsNamed } from '../../engine/xml/tree.ts';
import { textBoxes } from '../../render/geometry/text-boxes.ts';
import { groupsOf, treeOf } from './page-tree.ts';

interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly what: string;
}

/** Words, and the names of moves with the ground that holds their signs. */
const boxesOn = (page: string): Box[] => {
  const root = treeOf(page);
  const names = groupsOf(page, 'chart-move');
  const inNames = new Set(
    names.flatMap((name) => descendantsNamed(name, 'text').map(({ span }) => span.start)),
  );
  const grounds = names.map((name): Box => {
    const { x, y, width, height } = descendantsNamed(name, 'rect')[0]!.attributes;
    const [x0, y0] = [Number(x), Number(y)];
    return { x0, y0, x1: x0 + Number(width), y1: y0 + Number(height), what: name.attributes['data-change']! };
  });
  const words = descendantsNamed(root, 'text')
    .filter(({ span }) => !inNames.has(span.start))
    .flatMap((text) =>
      textBoxes(page, text).map((box) => ({ ...box, what: page.slice(text.inner.start, text.inner.end) })),
    );
  return [...grounds, ...words];
};

const meet = (a: Box, b: Box): boolean =>
  a.x0 < b.x1 - 1 && b.x0 < a.x1 - 1 && a.y0 < b.y1 - 1 && b.y0 < a.y1 - 1;

/** Words on a sheet that touch others or leave the paper, each told in words. */
export const findTouchingWords = (page: string): string[] => {
  const [, , width = '0', height = '0'] = /viewBox="([^"]*)"/.exec(page)![1]!.split(' ');
  const boxes = boxesOn(page);
  const outside = boxes.filter(
    ({ x0, y0, x1, y1 }) => x0 < 0 || y0 < 0 || x1 > Number(width) || y1 > Number(height),
  );
  const hits = boxes.flatMap((a, i) =>
    boxes.slice(i + 1).flatMap((b) => (meet(a, b) ? [`${a.what} on ${b.what}`] : [])),
  );
  return [...outside.map(({ what }) => `${what} outside`), ...hits];
};
