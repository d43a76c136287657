import { describe, expect, it } from 'vitest';
import { headWords } from '../../../../render/pages/words/running-head.ts';

const titled = (title: string, subtitle: string, part = 'Harp'): string =>
  headWords({ title, subtitle }, part);

describe('a loose page tells', () => {
  it('the work, the piece of it and the part', () => {
    expect(titled('Three Weirs, Op. 9', 'Low Water', 'Harp II')).toBe(
      'Three Weirs, Op. 9 · Low Water · Harp II',
    );
  });

  it('none of it twice, and nothing of what a pupil is told under the title', () => {
    expect(titled('Low Water', '')).toBe('Low Water · Harp');
    expect(titled('Low Water', '\nWrite the pedals in.')).toBe('Low Water · Harp');
    expect(titled('Low Water', 'Low Water\nfor harp')).toBe('Low Water · Harp');
  });

  it('the piece alone where the part has no name, and no dot that nothing follows', () => {
    expect(titled('Low Water', '', '')).toBe('Low Water');
    expect(titled('Three Weirs, Op. 9', 'Low Water', '')).toBe('Three Weirs, Op. 9 · Low Water');
  });

  it('nothing where the piece has no name of its own', () => {
    expect(titled('', '')).toBe('');
  });
});
