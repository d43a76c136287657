import { describe, expect, it } from 'vitest';
import { indexLeverPages } from '../../../server/page/client/levers/lever-markings.ts';
import { readPage } from '../../../server/page/client/score/drawn/read-page.ts';

const marking = (id: string, onset: string, strings: string): string =>
  `<g id="${id}" class="lever-marking lever-change" data-strings="${strings}" data-onset="${onset}" role="img">`;

const PAGES = [
  `<g id="m1" class="measure">${marking('marking-1', '0', 'A♮3')}`,
  `<g id="m2" class="measure">${marking('marking-2', '51/2', 'F♯4 E♮3')}${marking('marking-3-1', '51', 'F♮4')}`,
];

const moves = [
  ['51/2', 'E♮3'],
  ['51', 'F♮4'],
  ['51', 'G♯4'],
].map(([at, change]) => ({ at, change })) as unknown as Parameters<typeof indexLeverPages>[2]['moves'];

describe('lever changes on the pages', () => {
  const index = indexLeverPages(PAGES.map(readPage), ['m1', 'm2', 'm3'], { moves });

  it('are found with their pages, by what is printed there and when', () => {
    expect(index.markings.map(({ id, page }) => [id, page])).toEqual([
      ['marking-1', 1],
      ['marking-2', 2],
      ['marking-3-1', 2],
    ]);
    expect(index.markingOfMove.map((each) => each?.id ?? null)).toEqual(['marking-2', 'marking-3-1', null]);
  });

  it('stand on the page of their bar; a bar that is drawn into the sign before it is where that is', () => {
    expect([0, 1, 2].map(index.pageOfBar)).toEqual([1, 2, 2]);
  });
});
