import { describe, expect, it } from 'vitest';
import { NO_DECISIONS } from '../../../engine/index.ts';
import {
  addVariant,
  keepVariants,
  LONGEST_NAME,
  MOST_VARIANTS,
  recallVariants,
} from '../../../server/page/client/memory/kept-variants.ts';

const startMemory = () => {
  const held = new Map<string, string>();
  return {
    getItem: (name: string) => held.get(name) ?? null,
    setItem: (name: string, value: string) => void held.set(name, value),
  };
};

const named = (name: string) => ({ name, decisions: NO_DECISIONS });

describe('variants of a piece', () => {
  it('are kept in their order, apart from those of another piece', () => {
    const memory = startMemory();
    keepVariants(memory, 'a piece', [named('slow'), named('fast')]);
    keepVariants(memory, 'another', [named('other')]);
    expect(recallVariants(memory, 'a piece').map(({ name }) => name)).toEqual(['slow', 'fast']);
  });

  it('give way to one of the same name, the oldest where there are too many', () => {
    expect(addVariant([named('a'), named('b')], named('a')).map(({ name }) => name)).toEqual(['b', 'a']);
    const many = Array.from({ length: MOST_VARIANTS }, (_, i) => named(`${i}`));
    expect(addVariant(many, named('new'))).toHaveLength(MOST_VARIANTS);
  });

  it('are not taken from memory that holds something else', () => {
    const memory = startMemory();
    const hostile = [null, 7, { name: 'x' }, { name: 'y'.repeat(LONGEST_NAME + 1), decisions: NO_DECISIONS }];
    memory.setItem('tringle-variants', JSON.stringify([['a piece', hostile]]));
    expect(recallVariants(memory, 'a piece')).toEqual([]);
    memory.setItem('tringle-variants', '{"broken');
    expect(recallVariants(memory, 'a piece')).toEqual([]);
  });

  it('say so where the browser keeps nothing', () => {
    const full = {
      getItem: () => null,
      setItem: () => {
        throw new Error('full');
      },
    };
    expect(keepVariants(full, 'a piece', [named('slow')])).toBe(false);
  });
});
