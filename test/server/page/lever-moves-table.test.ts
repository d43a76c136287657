import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import { tempoUnit } from '../../../engine/score/bars/counts.ts';
import { tabulateLeverMoves } from '../../../server/page/client/levers/side/lever-moves-table.ts';
import { LEVER_STRINGS } from '../../../server/page/strings/lever-strings.ts';

const BAR = {
  id: 'm1',
  name: '9',
  onsetQuarters: 0,
  durationQuarters: 4,
  beatQuarters: 1,
  tempoUnit: tempoUnit(rational(1)),
  opens: '',
  afterPause: false,
};

const NOTE = {
  name: 'F♯4',
  bar: 0,
  onset: rational(3),
  notes: { barIndex: 0, beat: '4', pitch: 'F♯4' },
  head: 'n1',
  others: [],
};

const MOVE = {
  at: '5/2',
  bar: '9',
  barName: '9',
  barIndex: 8,
  beat: '7/2',
  graceNote: null,
  onlyAt: null,
  restores: false,
  window: { after: null, before: '3' },
  freedBy: null,
  neededBy: 'n1',
  cost: { sum: 0, terms: [] },
  hand: 'left' as const,
  handAway: { after: null, before: null },
  string: 'F4',
  to: 'up' as const,
  change: 'F♯4',
};

describe('changes of levers for a person', () => {
  it('are a line each of the table, with exact beats and the notes they lie between', () => {
    const table = tabulateLeverMoves([MOVE], { bars: [BAR], notes: new Map([['n1', NOTE]]) });
    expect(table.split('\r\n').slice(1)).toEqual(['9,7/2,left hand,F4,up,F♯4,,"F♯4, 9"', '']);
    expect(table.split('\r\n')[0]!.split(',')).toHaveLength(8);
  });

  it('are told with beats as people say them', () => {
    expect(LEVER_STRINGS.chart.point('F♯4', 'left', '9', '7/2', false)).toBe(
      'F♯4, left hand, bar 9, beat 3½',
    );
    expect(LEVER_STRINGS.detail.at('9', '10/3')).toBe('Bar 9, beat 3⅓');
  });
});
