import { describe, expect, it } from 'vitest';
import { comingPages, type PagesSoFar } from '../../../server/page/client/score/drawn/coming-pages.ts';
import { readPage } from '../../../server/page/client/score/drawn/read-page.ts';

const OLD = ['old 1', 'old 2', 'old 3'].map(readPage);

const follow = (before: typeof OLD) => {
  const shown: PagesSoFar[] = [];
  const coming = comingPages(before, (pages) => shown.push(pages));
  const take = (number: number): void => coming.take({ number, of: 3, svg: `new ${number}` });
  const last = (): readonly string[] => shown.at(-1)!.pages.map(({ svg }) => svg);
  return { coming, last, shown, take };
};

describe('pages that come out of their order', () => {
  it('stand at once where they belong, and old ones stay around them', () => {
    const { last, shown, take } = follow(OLD);
    take(2);
    expect(last()).toEqual(['old 1', 'new 2', 'old 3']);
    expect(shown[0]).toMatchObject({ areMixed: true, ready: 1, of: 3 });
  });

  it('are all new in the end, and old ones that are too many are gone', () => {
    const { coming, last, shown, take } = follow(OLD);
    for (const number of [2, 1]) take(number);
    coming.end({ pageCount: 2, letters: '<style/>' });
    expect(last()).toEqual(['new 1', 'new 2']);
    expect(shown.at(-1)).toMatchObject({ areMixed: false, ready: 2, of: 2 });
  });

  it('wait for those before them where no old ones fill the room', () => {
    const { coming, last, take } = follow([]);
    take(2);
    expect(last()).toEqual([]);
    take(1);
    coming.end({ pageCount: 2, letters: '' });
    expect(last()).toEqual(['new 1', 'new 2']);
  });
});
