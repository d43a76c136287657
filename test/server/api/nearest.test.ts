import { describe, expect, it } from 'vitest';
import { findNearest } from '../../../server/api/requests/nearest-word.ts';

describe('the nearest name', () => {
  it.each([
    ['prat', 'part'],
    ['PART', 'part'],
    ['parts', 'part'],
    ['pag', 'page'],
    ['prt', 'part'],
  ])('to %s is %s', (word, name) => {
    expect(findNearest(word, ['part', 'page'])).toBe(name);
  });

  it('to the beginning of a name is that name, not one of like letters', () => {
    expect(findNearest('spel', ['respell', 'spelling'])).toBe('spelling');
  });

  it.each(['', 'x', 'density', 'part'.repeat(100)])('to something else there is none', (word) => {
    expect(findNearest(word, ['part', 'page'])).toBeNull();
  });
});
