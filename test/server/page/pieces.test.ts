import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutIntoPieces, joinPieces, type Piece } from '../../../server/page/client/planner/pieces.ts';

const entry = fc.oneof(fc.integer(), fc.string(), fc.constant(null), fc.record({ bar: fc.nat() }));
const list = fc.oneof(
  fc.array(entry),
  fc.array(fc.array(fc.nat())),
  fc.array(fc.tuple(fc.string(), entry)).map((entries) => new Map(entries)),
  fc.array(fc.nat()).map((entries) => new Set(entries)),
);

/** Records within records, with lists in them, as threads tell each other. */
const { told } = fc.letrec((tie) => ({
  told: fc.dictionary(fc.constantFrom('part', 'plan', 'notes', 'told', 'path'), tie('value')),
  value: fc.oneof({ maxDepth: 3 }, list, entry, tie('told')),
}));

/** As another thread gets it: a copy of each piece. */
const sendAll = <T>(pieces: readonly Piece<T>[]): readonly T[] => {
  const wholes: T[] = [];
  const take = joinPieces<T>((whole) => wholes.push(whole));
  for (const piece of pieces) take(structuredClone(piece));
  return wholes;
};

describe('what threads tell each other in pieces', () => {
  it('comes out as it was, and once, however small the pieces are', () => {
    fc.assert(
      fc.property(told, fc.integer({ min: 1, max: 5 }), (whole, most) => {
        expect(sendAll(cutIntoPieces(whole, most))).toEqual([whole]);
      }),
    );
  });

  it('keeps the order of what was told one after the other', () => {
    const first = { notes: [1, 2, 3, 4, 5] };
    const then = { notes: [6] };
    expect(sendAll([first, then].flatMap((each) => cutIntoPieces(each, 2)))).toEqual([first, then]);
  });

  it('has no more entries in a piece than it may', () => {
    fc.assert(
      fc.property(fc.array(fc.nat()), fc.integer({ min: 1, max: 5 }), (notes, most) => {
        for (const piece of cutIntoPieces({ part: { notes } }, most)) {
          const entries = 'told' in piece ? piece.told.part.notes : piece.entries;
          expect(entries.length).toBeLessThanOrEqual(most);
        }
      }),
    );
  });
});
