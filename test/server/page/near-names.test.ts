import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { joinNear, type PlacedNames } from '../../../server/page/client/score/near-names.ts';

const WIDTH = 26;

const at = (left: number, name = 'C♯', top = 100): PlacedNames => ({ names: [name], left, top });

describe('names of another plan’s moves on a page', () => {
  it('stand alone where each has room', () => {
    const apart = [at(0), at(26), at(100), at(0, 'D♮', 200)];
    expect(joinNear(apart, WIDTH)).toEqual(apart);
  });

  it('share a frame where they would cover each other', () => {
    const [joined, ...others] = joinNear([at(100, 'C♯'), at(110, 'B♭'), at(115, 'D♮')], WIDTH);
    expect(others).toEqual([]);
    expect(joined!.names).toEqual(['C♯', 'B♭', 'D♮']);
  });

  it('never cover each other, and none is lost', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(900), { maxLength: 30 }), (lefts) => {
        const placed = lefts.toSorted((a, b) => a - b).map((left, i) => at(left, `${i}`));
        const joined = joinNear(placed, WIDTH);
        expect(joined.flatMap(({ names }) => names)).toEqual(placed.flatMap(({ names }) => names));
        joined.slice(1).forEach((each, i) => {
          const before = joined[i]!;
          expect(each.left - before.left).toBeGreaterThanOrEqual(
            ((each.names.length + before.names.length) * WIDTH) / 2 - 1e-6,
          );
        });
      }),
    );
  });
});
