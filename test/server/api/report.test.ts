import { describe, expect, it } from 'vitest';
import { noteFix } from '../../../engine/findings/model.ts';
import { reportAnnotation } from '../../../server/reports/report.ts';
import type { ScoreNames } from '../../../server/reports/report-notes.ts';
import { PLAN, pedalReport, sampleAnnotation } from '../annotation-sample.ts';

describe('the report', () => {
  const names: ScoreNames = {
    note: (note) => ({ barIndex: 1, beat: '3', pitch: note === 'n7' ? 'C♯5' : 'C5' }),
    bars: (bars) => `bars ${bars.join()}`,
  };
  const report = pedalReport(reportAnnotation(sampleAnnotation(), names));

  it('tells a move in words, with exact times, its window, and what it costs', () => {
    expect(report.moves).toEqual([
      {
        at: '7/2',
        bar: '2a',
        barName: '2a',
        barIndex: 1,
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
    const [reported] = reportAnnotation(
      sampleAnnotation({ plan: { kind: 'pedal', plan: { ...PLAN, moves } } }),
      names,
    ).moves;
    expect(reported).toMatchObject({
      restores: true,
      window: { after: null, before: null },
      freedBy: null,
      neededBy: null,
    });
  });

  it('names the notes of a fix as a request takes them back', () => {
    const [finding] = PLAN.findings;
    const from = { letter: 'C', alter: 1, octave: 5 } as const;
    const to = { letter: 'D', alter: -1, octave: 5 } as const;
    const fixes = [
      {
        ...noteFix({ kind: 'write-for', facts: { from, to } }, [{ kind: 'respell', note: 'n7', from, to }]),
        moreMoves: 1,
      },
      noteFix({ kind: 'leave-one-out', facts: {} }, [{ kind: 'omit', note: 'n7', from }]),
    ];
    const plan = { ...PLAN, findings: [{ ...finding!, fixes }], omitted: ['n3'] };
    const told = pedalReport(reportAnnotation(sampleAnnotation({ plan: { kind: 'pedal', plan } }), names));
    const at = { barIndex: 1, beat: '3', pitch: 'C♯5' };
    expect(told.findings[0]!.fixes).toEqual([
      {
        sentence: 'Write D♭5 for the C♯5.',
        changes: [{ kind: 'respell', note: 'n7', at, to: 'D♭5' }],
        moreMoves: 1,
      },
      { sentence: 'Leave one of the notes out.', changes: [{ kind: 'omit', note: 'n7', at }], moreMoves: 0 },
    ]);
    expect(told.omitted).toEqual(['n3']);
  });

  it('tells respellings and tunings as pitches', () => {
    expect(report.respellings).toEqual([
      {
        note: 'n12',
        bar: '2a',
        barName: '2a',
        at: { barIndex: 1, beat: '3', pitch: 'C5' },
        from: 'F♭♭4',
        to: 'E♭4',
      },
    ]);
    expect(report.tunings).toEqual([{ string: 'D1', to: 'D♭1' }]);
  });

  it('tells bars by their printed numbers', () => {
    const { difficulty, ...summary } = report.summary;
    expect(
      difficulty.passages.map(({ from, until, grade, playable }) => [from, until, grade, playable]),
    ).toEqual([['1', '2a', 'hard', false]]);
    expect(summary).toEqual({
      moves: 1,
      minMoves: 1,
      provenOptimal: true,
      busiest: { foot: 'left', bar: '2a', barName: '2a', movesInBar: 1 },
      playable: false,
      firstFailure: '2a',
    });
    expect(report.suggestions).toEqual([
      {
        notes: ['n7'],
        octaves: [5],
        bars: 'bars 1',
        from: 'C♯5',
        to: 'D♭5',
        alongside: [],
        changes: [{ kind: 'respell', note: 'n7', at: expect.objectContaining({ pitch: 'C♯5' }), to: 'D♭5' }],
        savesMoves: 1,
        fixesPlaces: 1,
      },
    ]);
  });

  it('survives the way through JSON', () => {
    expect(JSON.parse(JSON.stringify(report))).toEqual(report);
  });
});
