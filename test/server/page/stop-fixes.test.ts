import { describe, expect, it } from 'vitest';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { solvedBars, type ToldFinding } from '../../../server/page/client/decisions/troubles.ts';
import {
  decisionsOfFix,
  joinQuickFixes,
  type StopFix,
  type StopPlace,
  stopOf,
} from '../../../server/page/client/findings/fixes/stop-fixes.ts';
import { readPart } from '../../../server/page/client/planner/read-part.ts';
import { note, readHarp } from '../../engine/score/musicxml/musicxml-builder.ts';

/** F natural and F sharp at once: one of them on another string is what can be done at once. */
const score = readHarp(note('F4', 4) + note('F#4', 4, { chord: true }));
const part = { ...readPart(score, [], 0), plan: planPedals(score) };
const finding = part.plan.findings.find(({ severity }) => severity === 'stop')!;

const HIGHER: StopFix = {
  kind: 'octave',
  sentence: 'Play the F♯4 an octave higher.',
  heard: 'The note sounds higher.',
  changes: [],
  decisions: { respell: [], omit: [], delays: [], tempos: [] },
  tempo: null,
  moreMoves: 0,
  moreWarnings: 0,
  newWarnings: [],
  alsoFixes: 0,
  cost: 3,
};

const searchedFor = (...fixes: readonly StopFix[]): StopPlace => ({
  code: finding.code,
  bar: '1',
  barName: '1',
  barIndex: 0,
  beat: '1',
  notes: finding.places[0]!.notes,
  sentence: finding.sentence,
  fixes,
});

const joined = (...fixes: readonly StopFix[]) => joinQuickFixes(part, [searchedFor(...fixes)])[0]!.fixes;

describe('the fixes of a place that cannot be played are one list', () => {
  const [quick] = finding.fixes;

  it('what stood at once is in it, before what is heard otherwise', () => {
    expect(joined(HIGHER)[0]).toMatchObject({ kind: 'respell', sentence: quick!.sentence });
    expect(joined(HIGHER).at(-1)).toBe(HIGHER);
  });

  it('what was searched and is the same is told once, as it was searched', () => {
    const [same] = joined();
    const searched: StopFix = { ...same!, sentence: 'The same.', heard: 'Nothing.' };
    expect(decisionsOfFix(same!)).toHaveLength(1);
    const told = joined(searched).filter(
      (each) => JSON.stringify(decisionsOfFix(each)) === JSON.stringify(decisionsOfFix(searched)),
    );
    expect(told).toEqual([searched]);
  });

  it('belongs to its finding, and to no other place', () => {
    const stop = searchedFor(HIGHER);
    expect(stopOf([stop], finding)).toBe(stop);
    expect(stopOf([{ ...stop, barIndex: 1 }], finding)).toBeUndefined();
    expect(stopOf([{ ...stop, notes: ['another'] }], finding)).toBeUndefined();
  });
});

describe('what a fix solves', () => {
  const stops = (...bars: readonly string[]): readonly ToldFinding[] => [
    {
      code: 'foot-too-busy',
      severity: 'stop',
      places: bars.map((bar, i) => ({ key: `${i}`, bar, sentence: '' })),
    },
  ];

  it('is a bar in which nothing is left, and how much is left elsewhere', () => {
    expect(solvedBars(stops('3', '3', '5'), stops('3', '5'))).toEqual({ bars: [], left: 2 });
    expect(solvedBars(stops('3', '3', '5'), stops('5'))).toEqual({ bars: ['3'], left: 1 });
    expect(solvedBars(stops('3'), [])).toEqual({ bars: ['3'], left: 0 });
    expect(solvedBars(stops('3', '5'), stops('3', '5'))).toBeNull();
    expect(solvedBars([], [])).toBeNull();
  });
});
