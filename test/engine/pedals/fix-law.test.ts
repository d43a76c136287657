import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';
import { expectLaw } from './fix-law.ts';

const pitch = (...octaves: number[]) =>
  fc
    .tuple(
      fc.constantFrom('C', 'D', 'E', 'F', 'G', 'A', 'B'),
      fc.constantFrom('', '', '#', 'b', '#', 'b', '##', 'bb'),
      fc.constantFrom(...octaves),
    )
    .map(([letter, accidental, octave]) => `${letter}${accidental}${octave}`);

const onset = (...octaves: number[]) =>
  fc.oneof(
    pitch(...octaves),
    fc.tuple(pitch(...octaves), pitch(...octaves)).map(([a, b]) => `${a}+${b}`),
    fc.constant('r'),
  );

const line = (bars: number, ...octaves: number[]) =>
  fc
    .array(fc.array(onset(...octaves), { minLength: 5, maxLength: 5 }), { minLength: bars, maxLength: bars })
    .map((all) => all.map((bar) => bar.map((each) => `${each}/1:2`).join(' ')).join(' | '));

const somePart = (quartersPerMinute: number, playOrder: readonly number[], bars = 2) =>
  fc
    .record({
      upper: line(bars, 4, 5),
      lower: line(bars, 3, 4),
      keyFifths: fc.constantFrom(-3, 0, 2),
      quartersPerMinute: fc.constant(quartersPerMinute),
      playOrder: fc.constant(playOrder),
    })
    .map(smallPart);

describe('fixes that are offered', () => {
  it('agree with each other in slow chromatic music', () => {
    fc.assert(
      fc.property(somePart(40, [0, 1]), (score) => expectLaw(score)),
      { numRuns: 8 },
    );
  });

  it('agree with each other where the feet have hardly time', () => {
    fc.assert(
      fc.property(somePart(150, [0, 1]), (score) => expectLaw(score)),
      { numRuns: 8 },
    );
  });

  it('agree with each other over a repeat', () => {
    fc.assert(
      fc.property(somePart(90, [0, 1, 0, 1]), (score) => expectLaw(score)),
      { numRuns: 4 },
    );
  });
});

/** What the findings of a small part offer. */
const offered = (part: SmallPart): readonly string[] =>
  planPedals(smallPart(part)).findings.flatMap(({ fixes }) => fixes.map(({ sentence }) => sentence));

// What a harpist writes first: common practice, no source.
describe('of several fixes', () => {
  it('the natural comes first: C♭ beside C♮ is written as B♮', () => {
    expect(offered({ upper: 'C4+Cb5/4' })).toEqual([
      'Write B4 for the C♭5 in bar 1.',
      'Write B♯3 for the C4 in bar 1.',
    ]);
  });

  it('the usual accidental comes before the unusual one: C♯ beside C♮ is written as D♭', () => {
    expect(offered({ upper: 'C4+C#5/4' })).toEqual([
      'Write D♭5 for the C♯5 in bar 1.',
      'Write B♯3 for the C4 in bar 1.',
    ]);
  });

  it('that of one string for both hands is to leave it to one of them', () => {
    expect(offered({ upper: 'C4/1', lower: 'C4/1' })[0]).toBe('Play it with one hand only.');
  });
});

describe('a fix that costs moves', () => {
  it('says how many', () => {
    const [first] = offered({
      upper: 'B4/1 r/1 C4+Cb5/1 r/1 | Bb4/1 r/1 r/2',
      lower: 'Bb2/1 r/1 r/2 | Bb2/4',
    });
    expect(first).toMatch(/\((costs|saves) /);
  });
});
