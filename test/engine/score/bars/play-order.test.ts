import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findPlayOrder, MAX_PLAYED_BARS } from '../../../../engine/score/bars/play-order.ts';
import type { BarRepeat, Jump } from '../../../../engine/score/model/bar.ts';
import { cases } from '../../../thorough.ts';

interface Signs {
  readonly start?: boolean;
  readonly times?: number;
  readonly endings?: readonly number[];
  readonly jumps?: readonly Jump[];
}

const bars = (...signs: readonly Signs[]): { number: string; repeat: BarRepeat }[] =>
  signs.map(({ start = false, times = 0, endings = [], jumps = [] }, index) => ({
    number: `${index + 1}`,
    repeat: { start, endTimes: times, endings, jumps },
  }));

/** The bars in the order of play, by printed number. */
const played = (...signs: readonly Signs[]): string =>
  findPlayOrder(bars(...signs))
    .order.map((bar) => bar + 1)
    .join(' ');

const PLAIN: Signs = {};
const DA_CAPO: Jump = { kind: 'da-capo' };
const FINE: Jump = { kind: 'fine' };
const SEGNO: Jump = { kind: 'segno', label: '' };
const DAL_SEGNO: Jump = { kind: 'dal-segno', label: '' };
const TO_CODA: Jump = { kind: 'to-coda', label: '' };
const CODA: Jump = { kind: 'coda', label: '' };

describe('repeats', () => {
  it('play a passage twice, or as often as they say', () => {
    expect(played(PLAIN, { start: true }, { times: 2 }, PLAIN)).toBe('1 2 3 2 3 4');
    expect(played({ start: true, times: 3 })).toBe('1 1 1');
  });

  it('without a start go back to the beginning, or to the end of the one before', () => {
    expect(played(PLAIN, { times: 2 }, PLAIN, { times: 2 })).toBe('1 2 1 2 3 4 3 4');
  });

  it('may nest: the inner one is taken again each time', () => {
    expect(played({ start: true }, { start: true, times: 2 }, { times: 2 })).toBe('1 2 2 3 1 2 2 3');
  });

  it('that never end are passed over with a remark', () => {
    const result = findPlayOrder(bars({ start: true }, PLAIN, { start: true }, { times: 2 }));
    expect(result.order).toEqual([0, 1, 2, 3, 2, 3]);
    expect(result.remarks.map((each) => [each.code, each.bar])).toEqual([['repeat-ill-formed', 0]]);
  });
});

describe('endings', () => {
  it('are played on the passes they name', () => {
    expect(played({ start: true }, { endings: [1], times: 2 }, { endings: [2] }, PLAIN)).toBe('1 2 1 3 4');
    expect(played({ start: true }, { endings: [1, 2], times: 2 }, { endings: [3] })).toBe('1 2 1 2 1 3');
    expect(
      played({ start: true }, { endings: [1, 3], times: 2 }, { endings: [2], times: 2 }, { endings: [4] }),
    ).toBe('1 2 1 3 1 2 1 4');
  });

  it('may be several bars long', () => {
    const first: Signs = { endings: [1] };
    const second: Signs = { endings: [2] };
    expect(played({ start: true }, first, { ...first, times: 2 }, second, second, PLAIN)).toBe(
      '1 2 3 1 4 5 6',
    );
  });

  it('a lone first ending is left out the second time', () => {
    expect(played({ start: true }, { endings: [1], times: 2 }, PLAIN)).toBe('1 2 1 3');
  });

  it('the last may end with a repeat sign out of habit: it does not go back again', () => {
    expect(played({ start: true }, { endings: [1], times: 2 }, { endings: [2], times: 2 }, PLAIN)).toBe(
      '1 2 1 3 4',
    );
  });

  it('the next repeat may start within the last ending', () => {
    expect(
      played({ start: true }, { endings: [1], times: 2 }, { endings: [2], start: true }, { times: 2 }, PLAIN),
    ).toBe('1 2 1 3 4 3 4 5');
  });

  it('that do not name every pass once leave the printed order, with a remark', () => {
    for (const signs of [
      [{ start: true }, { endings: [2], times: 2 }, PLAIN],
      [{ start: true }, { endings: [1], times: 2 }, { endings: [1] }],
      [{ start: true }, { endings: [1] }, { endings: [2] }],
    ]) {
      const result = findPlayOrder(bars(...signs));
      expect(result.order).toEqual([0, 1, 2]);
      expect(result.remarks.map((each) => each.code)).toEqual(['repeat-ill-formed']);
    }
  });
});

describe('da capo and dal segno', () => {
  it('go back once, to the end or to the fine', () => {
    expect(played(PLAIN, PLAIN, { jumps: [DA_CAPO] })).toBe('1 2 3 1 2 3');
    expect(played(PLAIN, { jumps: [FINE] }, { jumps: [DA_CAPO] })).toBe('1 2 3 1 2');
    expect(played(PLAIN, { jumps: [SEGNO] }, { jumps: [FINE] }, { jumps: [DAL_SEGNO] })).toBe('1 2 3 4 2 3');
  });

  it('lead to the coda the second time only', () => {
    expect(
      played(
        PLAIN,
        { jumps: [SEGNO] },
        { jumps: [TO_CODA] },
        { jumps: [DAL_SEGNO] },
        { jumps: [CODA] },
        PLAIN,
      ),
    ).toBe('1 2 3 4 2 3 5 6');
  });

  it('understand two coda signs: from the first to the second', () => {
    expect(played(PLAIN, { jumps: [CODA] }, { jumps: [DA_CAPO] }, { jumps: [CODA] })).toBe('1 2 3 1 4');
  });

  it('come after the repeats, which are not taken again', () => {
    expect(played({ start: true, times: 2 }, { jumps: [FINE] }, { jumps: [DA_CAPO] })).toBe('1 1 2 3 1 2');
    expect(played({ start: true }, { times: 2, jumps: [DA_CAPO] })).toBe('1 2 1 2 1 2');
  });

  it('in the middle of a repeat wait for its last pass', () => {
    expect(played({ start: true, jumps: [DA_CAPO] }, { times: 2 })).toBe('1 2 1 1 2');
  });

  it('take the last ending afterwards', () => {
    expect(
      played(
        { start: true },
        { endings: [1], times: 2 },
        { endings: [2], jumps: [FINE] },
        { jumps: [DA_CAPO] },
      ),
    ).toBe('1 2 1 3 4 1 3');
  });

  it('may stand in a first ending in place of a repeat sign', () => {
    expect(played(PLAIN, { endings: [1], jumps: [DA_CAPO] }, { endings: [2] })).toBe('1 2 1 3');
  });

  it('take repeats that come after the jump for the first time', () => {
    expect(played({ jumps: [TO_CODA] }, { jumps: [DA_CAPO] }, { jumps: [CODA], start: true, times: 2 })).toBe(
      '1 2 1 3 3',
    );
  });

  it('find the segno of their own name', () => {
    const one: Jump = { kind: 'segno', label: 'one' };
    const two: Jump = { kind: 'segno', label: 'two' };
    expect(played({ jumps: [one] }, { jumps: [two] }, { jumps: [{ kind: 'dal-segno', label: 'one' }] })).toBe(
      '1 2 3 1 2 3',
    );
  });

  it('without their segno or coda leave the printed order, with a remark', () => {
    expect(findPlayOrder(bars(PLAIN, { jumps: [DAL_SEGNO] }))).toMatchObject({
      order: [0, 1],
      remarks: [{ code: 'repeat-ill-formed', bar: 1 }],
    });
    expect(findPlayOrder(bars({ jumps: [TO_CODA] }, { jumps: [DA_CAPO] })).remarks).toHaveLength(1);
  });
});

describe('any signs at all', () => {
  const jump: fc.Arbitrary<Jump> = fc.oneof(
    fc.constantFrom(DA_CAPO, FINE),
    fc.record({
      kind: fc.constantFrom('segno' as const, 'coda' as const, 'to-coda' as const, 'dal-segno' as const),
      label: fc.constantFrom('', 'x'),
    }),
  );
  const signs = fc.record({
    start: fc.boolean(),
    times: fc.constantFrom(0, 0, 1, 2, 3, 1000),
    endings: fc.constantFrom([], [], [1], [2], [1, 2], [3]),
    jumps: fc.array(jump, { maxLength: 2 }),
  });

  it('end, with bars of the score only, at most as many as may be played, each bar once without signs', () => {
    fc.assert(
      fc.property(fc.array(signs, { maxLength: 12 }), (list) => {
        const { order } = findPlayOrder(bars(...list));
        expect(order.length).toBeLessThanOrEqual(MAX_PLAYED_BARS);
        expect(order.every((bar) => bar >= 0 && bar < list.length)).toBe(true);
        if (list.length > 0) expect(order[0]).toBe(0);
      }),
      { numRuns: cases(300) },
    );
  });

  it('too many signs for jumps leave the printed order, with a remark', () => {
    const jumps = Array.from(
      { length: 1001 },
      (_, index): Jump => ({ kind: 'dal-segno', label: `${index}` }),
    );
    const result = findPlayOrder(bars({ jumps: [SEGNO, ...jumps] }, PLAIN));
    expect(result.order).toEqual([0, 1]);
    expect(result.remarks).toHaveLength(1);
  });

  it('that ask for too much leave the printed order, with a remark', () => {
    const deep = Array.from({ length: 12 }, () => ({ start: true }));
    const back = Array.from({ length: 12 }, () => ({ times: 10 }));
    const result = findPlayOrder(bars(...deep, ...back));
    expect(result.order).toEqual(Array.from({ length: 24 }, (_, index) => index));
    expect(result.remarks.map((each) => each.code)).toEqual(['repeat-ill-formed']);
  });
});
