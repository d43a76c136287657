import { describe, expect, it } from 'vitest';
import { reportAnnotation } from '../../server/report.ts';
import { PLAN, sampleAnnotation } from './annotation-sample.ts';

describe('the report', () => {
  const report = reportAnnotation(sampleAnnotation());

  it('tells a move in words, with exact times, its window, and what it costs', () => {
    expect(report.moves).toEqual([
      {
        at: '7/2',
        bar: '2a',
        beat: '3',
        graceNote: null,
        foot: 'left',
        pedal: 'C',
        from: 'natural',
        to: 'sharp',
        change: 'C♯',
        restores: false,
        window: { after: '3', before: '16/3' },
        freedBy: 'n4',
        neededBy: 'n9',
        cost: {
          sum: 102.5,
          terms: [
            { name: 'move', amount: 100 },
            { name: 'off-beat', amount: 2.5 },
          ],
        },
      },
    ]);
  });

  it('leaves open what has no need before it in the music or after it', () => {
    const [move] = PLAN.moves;
    const moves = [{ ...move!, restores: true, window: { after: null, before: null } }];
    const [reported] = reportAnnotation(sampleAnnotation({ plan: { ...PLAN, moves } })).moves;
    expect(reported).toMatchObject({
      restores: true,
      window: { after: null, before: null },
      freedBy: null,
      neededBy: null,
    });
  });

  it('tells respellings and tunings as pitches', () => {
    expect(report.respellings).toEqual([{ note: 'n12', from: 'F♭♭4', to: 'E♭4' }]);
    expect(report.tunings).toEqual([{ string: 'D1', to: 'D♭1' }]);
  });

  it('tells bars by their printed numbers', () => {
    expect(report.summary).toEqual({
      moves: 1,
      leastMoves: 1,
      busiest: { foot: 'left', bar: '2a', movesInBar: 1 },
      playable: false,
      firstFailure: '2a',
    });
    expect(report.suggestions).toEqual([
      { notes: ['n7'], from: 'C♯5', to: 'D♭5', savesMoves: 1, mendsPlaces: 1 },
    ]);
  });

  it('survives the way through JSON', () => {
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });
});
