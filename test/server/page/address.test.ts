import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readAddress, writeAddress } from '../../../server/page/client/memory/address.ts';

describe('the address of a piece', () => {
  it('names the piece and the bar, whatever the piece is known by', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.option(fc.nat(99_999)), (key, bar) => {
        expect(readAddress(writeAddress({ key, bar }))).toEqual({ key, bar });
      }),
    );
  });

  it('that someone has spoilt leads to the beginning of a piece that is not there', () => {
    expect(readAddress('#%E0%A4%A/x7')).toEqual({ key: '%E0%A4%A', bar: null });
  });
});
