import { describe, expect, it } from 'vitest';
import { NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { rational } from '../../../engine/music/rational.ts';
import { tempoUnit } from '../../../engine/score/bars/counts.ts';
import {
  allowedForChange,
  followChange,
  type LeverMove,
  makeChange,
  pinOfChange,
  stepChange,
} from '../../../server/page/client/levers/lever-moves.ts';

const BAR = {
  id: 'b1',
  name: '1',
  onsetQuarters: 0,
  durationQuarters: 4,
  beatQuarters: 1,
  tempoUnit: tempoUnit(rational(1)),
  opens: '',
  afterPause: false,
} as const;

const PART = {
  bars: [],
  moments: Array.from({ length: 12 }, (_, quarters) => ({
    barIndex: Math.floor(quarters / 4),
    beat: `${(quarters % 4) + 1}`,
    quarters,
  })),
};

const change = (at: number, more: Partial<LeverMove> = {}): LeverMove => ({
  at: `${at}`,
  bar: `${Math.floor(at / 4) + 1}`,
  barName: `${Math.floor(at / 4) + 1}`,
  barIndex: Math.floor(at / 4),
  beat: `${(at % 4) + 1}`,
  graceNote: null,
  onlyAt: null,
  restores: false,
  window: { after: '1', before: '9' },
  freedBy: null,
  neededBy: null,
  cost: { sum: 0, terms: [] },
  hand: 'left',
  handAway: { after: null, before: null },
  string: 'F4',
  to: 'up',
  change: 'F♯4',
  ...more,
});

const quarters = (places: readonly { readonly quarters: number }[]): number[] =>
  places.map((place) => place.quarters);

describe('where a lever change may be made', () => {
  it('is after the last note of the old pitch, up to the first of the new one', () => {
    expect(quarters(allowedForChange(PART, [change(5)], 0))).toEqual([2, 3, 4, 5, 6, 7, 8, 9]);
  });

  it('is between the changes of the same lever before and after, whatever other levers do', () => {
    const moves = [change(3), change(5), change(6, { string: 'G4' }), change(8)];
    expect(quarters(allowedForChange(PART, moves, 1))).toEqual([4, 5, 6, 7]);
  });

  it('is not before the pause in front of its movement', () => {
    const bars = [0, 4, 8].map((onsetQuarters) => ({
      ...BAR,
      onsetQuarters,
      afterPause: onsetQuarters === 4,
    }));
    expect(quarters(allowedForChange({ ...PART, bars }, [change(4)], 0))).toEqual([4, 5, 6, 7, 8, 9]);
  });

  it('is stepped to one by one, and not beyond', () => {
    expect(stepChange(PART, [change(5)], 0, 'earlier')?.quarters).toBe(4);
    expect(stepChange(PART, [change(2)], 0, 'earlier')).toBeNull();
    expect(stepChange(PART, [change(9)], 0, 'later')).toBeNull();
  });
});

describe('a lever change that the user makes elsewhere', () => {
  it('takes its pin with it, and the hand that was named', () => {
    const first = makeChange(NO_DECISIONS, change(5), { at: { barIndex: 1, beat: '2' }, hand: 'right' });
    expect(first.pin).toEqual({
      kind: 'lever-move',
      lever: 'F4',
      to: 'up',
      at: { barIndex: 1, beat: '2' },
      hand: 'right',
    });
    const again = makeChange(first.decisions, change(5), { at: { barIndex: 1, beat: '1' } });
    expect(again.decisions.pins).toEqual([{ ...first.pin, at: { barIndex: 1, beat: '1' } }]);
    expect(pinOfChange(again.decisions, change(4))).toEqual(again.pin);
    expect(pinOfChange(again.decisions, change(5))).toBeNull();
  });
});

describe('a change that is looked at', () => {
  const raise = (at: number) => change(at);
  const lower = (at: number) => change(at, { to: 'down', change: 'F♮4' });

  it('is found again where another comes before it in a new plan', () => {
    expect(followChange(raise(5), [raise(0), lower(3), raise(4)])).toBe(2);
    expect(followChange(raise(5), [change(5, { string: 'C5' }), lower(5)])).toBeNull();
    expect(followChange(undefined, [raise(0)])).toBeNull();
  });
});
