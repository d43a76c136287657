import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ROW_VU } from '../../../render/draw/draw-rows.ts';
import { boxesMeet } from '../../../render/geometry/outline-boxes.ts';
import { findOverlaps } from '../../../render/layout/spaces/overlaps.ts';
import { headAndWords, type PlacedSpace, placedInks } from '../../../render/layout/spaces/placed-space.ts';
import { ALL_STAVES } from '../../../render/layout/spaces/reserve-spaces.ts';
import { AT_ITS_BEAT_VU, separateSpaces, shiftLimit } from '../../../render/layout/spaces/separate-spaces.ts';
import { STANDS_OVER } from '../../../render/markings/standing.ts';

/** A letter 5 vu wide and 6 high, with words of a width under it, all on one level; a vu is one unit. */
interface Change {
  readonly at: number;
  readonly wordsVu: number;
  readonly foot?: 'left' | 'right' | 'both';
}

const LETTER = { width: 5, height: 6 };
const WORDS_HEIGHT = 9;

const placed = (changes: readonly Change[]): PlacedSpace[] =>
  changes.map(({ at, wordsVu, foot }, i) => {
    const width = Math.max(LETTER.width, wordsVu);
    const height = LETTER.height + (wordsVu > 0 ? WORDS_HEIGHT : 0);
    const words = wordsVu > 0 ? { startVu: 0, endVu: LETTER.width, headVu: LETTER.height } : {};
    return {
      room: {
        ...{
          ...STANDS_OVER,
          stance: 'from',
          id: `change-${i}`,
          at: { num: i, den: 1 },
          bar: 0,
          graceNote: null,
        },
        ...{ line: 'markings', staves: ALL_STAVES, box: { widthVu: width, heightVu: height }, ...words },
        ...(foot === undefined ? {} : { foot }),
      },
      placeholder: { id: `change-${i}`, bar: null, span: { start: 0, end: 0 } } as never,
      box: { x0: at, y0: 100, x1: at + width, y1: 100 + height },
    };
  });

const separate = (changes: readonly Change[]): readonly PlacedSpace[] =>
  separateSpaces(placed(changes), [], 'below', 1, shiftLimit.far);

describe('changes beside each other', () => {
  const crowded = fc
    .array(fc.record({ step: fc.integer({ min: 1, max: 30 }), wordsVu: fc.constantFrom(0, 4, 12, 20) }), {
      minLength: 2,
      maxLength: 9,
    })
    .map((each) => {
      let at = 0;
      return each.map(({ step, wordsVu }): Change => {
        at += step;
        return { at, wordsVu };
      });
    });

  it('never touch, however crowded, and every letter stays at its beat', () => {
    fc.assert(
      fc.property(crowded, (changes) => {
        const apart = separate(changes);
        const inks = apart.flatMap((each) => placedInks(each, 1));
        expect(findOverlaps([], inks, 1)).toEqual([]);
        apart.forEach(({ box }, i) => {
          expect(Math.abs(box.x0 - changes[i]!.at)).toBeLessThanOrEqual(AT_ITS_BEAT_VU + 1e-9);
        });
      }),
    );
  });

  it('keep their letters on one level where these have room, and set their words under one another', () => {
    const apart = separate([
      { at: 0, wordsVu: 20 },
      { at: 10, wordsVu: 20 },
      { at: 40, wordsVu: 20 },
    ]);
    expect(new Set(apart.map(({ box }) => box.y0)).size).toBe(1);
    const words = apart.map((each) => headAndWords(each, 1).words!);
    expect(words[1]!.y0).toBeGreaterThan(words[0]!.y1);
    expect(words[2]!.y0).toBe(words[0]!.y0);
    expect(boxesMeet(words[0]!, words[1]!)).toBe(false);
  });

  it('stand in the rows of their feet, the right foot’s above, and never in that of the other', () => {
    const tops = (feet: readonly ('left' | 'right' | 'both')[], step: number): number[] =>
      separate(feet.map((foot, i) => ({ at: step * i, wordsVu: 0, foot }))).map(({ box }) =>
        Number((box.y0 - 100).toFixed(6)),
      );
    expect(tops(['both', 'left', 'right'], 40)).toEqual([0, ROW_VU, 0]);
    expect(tops(['left', 'right'], 2)).toEqual([ROW_VU, 0]);
    // What finds no room goes away from the other foot's row.
    const [pair, right, left] = tops(['both', 'right', 'left'], 2);
    expect(right!).toBeLessThanOrEqual(pair! - ROW_VU);
    expect(left!).toBeGreaterThanOrEqual(pair! + ROW_VU);
    expect(tops(['left', 'right'], 40)).toEqual([0, 0]);
  });

  it('are left where they are if they have room', () => {
    const changes = [
      { at: 0, wordsVu: 12 },
      { at: 20, wordsVu: 0 },
    ];
    expect(separate(changes)).toEqual(placed(changes));
  });
});
