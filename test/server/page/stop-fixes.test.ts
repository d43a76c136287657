import { describe, expect, it } from 'vitest';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { solvedPlaces, type ToldFinding } from '../../../server/page/client/decisions/troubles.ts';
import {
  decisionsOfFix,
  joinQuickFixes,
  type StopPlace,
  stopOf,
} from '../../../server/page/client/findings/fixes/stop-fixes.ts';
import { readPart } from '../../../server/page/client/planner/read-part.ts';
import { STRINGS } from '../../../server/page/strings/strings.ts';
import { note, readHarp } from '../../engine/score/musicxml/musicxml-builder.ts';

type PlaceFix = StopPlace['fixes'][number];

/** F natural and F sharp at once: one of them on another string is what can be done at once. */
const score = readHarp(note('F4', 4) + note('F#4', 4, { chord: true }));
const part = { ...readPart(score, [], 0), plan: planPedals(score) };
const finding = part.plan.findings.find(({ severity }) => severity === 'stop')!;

const HIGHER: PlaceFix = {
  kind: 'octave',
  sentence: 'Play the F♯4 an octave higher.',
  heard: 'The note sounds higher.',
  changes: [],
  decisions: { respell: [] },
  moreMoves: 0,
  moreWarnings: 0,
  warningsThen: [],
  alsoFixes: 0,
  atAll: false,
  cost: 3,
};

const searchedFor = (...fixes: readonly PlaceFix[]): StopPlace => ({
  code: finding.code,
  bar: '1',
  barName: '1',
  barIndex: 0,
  beat: '1',
  notes: finding.places[0]!.notes,
  sentence: finding.sentence,
  fixes,
});

const joined = (...fixes: readonly PlaceFix[]) => joinQuickFixes(part, [searchedFor(...fixes)])[0]!.fixes;

describe('the fixes of a place that cannot be played are one list', () => {
  const [quick] = finding.fixes;

  it('what stood at once is in it, before what is heard otherwise', () => {
    expect(joined(HIGHER)[0]).toMatchObject({
      kind: 'respell',
      sentence: quick!.sentence,
      heard: 'Nothing.',
    });
    expect(joined(HIGHER).at(-1)).toBe(HIGHER);
  });

  it('what was searched and is the same is told once, as it was searched', () => {
    const [same] = joined();
    const searched: PlaceFix = { ...same!, sentence: 'The same.', heard: 'Nothing.' };
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

describe('the fixes of places that are told as one', () => {
  it('each belong to the place that their sentence names, whatever other places have of their notes', () => {
    const [first, second] = [
      note('F4', 4) + note('F#4', 4, { chord: true }),
      note('C5', 4) + note('C#5', 4, { chord: true }),
    ];
    const two = readHarp(first, second);
    const whole = { ...readPart(two, [], 0), plan: planPedals(two) };
    const told = whole.plan.findings.find(({ severity }) => severity === 'stop')!;
    expect(told.places).toHaveLength(2);
    const stops = told.places.map(({ bar, barNumber, barName, notes, sentence }) => ({
      ...searchedFor(),
      ...{ bar: barNumber, barIndex: bar, barName, notes, sentence },
    }));
    for (const { barName, fixes } of joinQuickFixes(whole, stops)) {
      expect(fixes.length).toBeGreaterThan(0);
      for (const { sentence } of fixes) expect(sentence).toMatch(new RegExp(`^Bar ${barName}: `));
    }
  });
});

describe('what a fix solves', () => {
  const stops = (...places: readonly string[]): readonly ToldFinding[] => [
    {
      code: 'foot-too-busy',
      severity: 'stop',
      places: places.map((key) => {
        const [bar, beat, note] = key.split(' ') as [string, string, string?];
        return { key: `${bar} ${beat}`, bar, beat, notes: [note ?? key], sentence: '' };
      }),
    },
  ];

  it('is a bar in which nothing is left, else the place, and how much is left elsewhere', () => {
    expect(solvedPlaces(stops('3 1', '3 2', '5 1'), stops('3 2', '5 1'))).toEqual({
      bars: [],
      places: [{ bar: '3', beat: '1' }],
      left: 2,
    });
    expect(solvedPlaces(stops('3 1', '3 2', '5 1'), stops('5 1'))).toEqual({
      bars: ['3'],
      places: [],
      left: 1,
    });
    expect(solvedPlaces(stops('3 1'), [])).toEqual({ bars: ['3'], places: [], left: 0 });
    expect(solvedPlaces(stops('3 1', '5 1'), stops('3 1', '5 1'))).toBeNull();
    expect(solvedPlaces([], [])).toBeNull();
  });

  it('is no place at which another stop is left, nor one that its notes only have at another beat', () => {
    expect(solvedPlaces(stops('3 1 n1', '3 1 n2'), stops('3 1 n2'))).toMatchObject({ bars: [], places: [] });
    expect(solvedPlaces(stops('3 1 n1'), stops('3 3/2 n1'))).toBeNull();
  });

  it('is named by bars, and by places in bars with more that cannot be played', () => {
    const solved = solvedPlaces(stops('2 1', '6 3/2', '6 2', '7 1'), stops('6 2', '7 1'))!;
    expect(STRINGS.decisions.solved(solved, 'now')).toBe(
      'Bar 2; bar 6, beat 1½ are playable now; 2 places are left that are not.',
    );
  });
});
