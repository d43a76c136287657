import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import type { LeverPlan } from '../../../engine/levers/model.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { playLevers } from '../../checker/play-levers.ts';
import { hasScores, readScoreFile, SMALLER_HARP_SCORES } from '../../corpus/harp-scores.ts';
import { smallPart } from '../../part-builder.ts';
import { cases } from '../../thorough.ts';

const NO_STRING = ['no-string-in-tuning', 'out-of-range', 'quarter-tone', 'string-in-two-pitches'];
const NO_TIME = ['hand-too-busy', 'no-free-hand'];

/** What goes wrong in playing the plan must be told of by its findings, and nothing else may go wrong. */
const expectTold = (score: Score, plan: LeverPlan): void => {
  const played = playLevers(score, plan, LEVER_HARP, DEFAULT_LEVER_OPTIONS.leverSeconds);
  const told = new Set(
    plan.findings.filter(({ code }) => NO_STRING.includes(code)).flatMap(({ notes }) => notes),
  );
  expect(played.missingNotes.filter(({ note }) => !told.has(note))).toEqual([]);
  const toldBars = new Set(
    plan.findings
      .filter(({ code }) => NO_TIME.includes(code))
      .flatMap(({ places }) => places.map(({ bar }) => bar)),
  );
  expect(played.hurries.filter(({ barIndex }) => !toldBars.has(barIndex))).toEqual([]);
};

const LETTERS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** A tune of folk character: mostly steps in a key, now and then a raised or lowered note, over a slow bass. */
const tune = fc.record({
  degrees: fc.array(
    fc.record({ step: fc.integer({ min: 0, max: 11 }), twist: fc.integer({ min: 0, max: 9 }) }),
    {
      minLength: 16,
      maxLength: 16,
    },
  ),
  bass: fc.array(fc.constantFrom('r/4', 'C3/2 r/2', 'r/2 G2/2', 'F2/1 C3/1 r/2', 'r/1 F#3/1 r/2', 'Bb2/4'), {
    minLength: 4,
    maxLength: 4,
  }),
  fifths: fc.integer({ min: -3, max: 4 }),
  order: fc.constantFrom([0, 1, 2, 3], [0, 1, 0, 1, 2, 3, 2, 3], [0, 1, 2, 3, 0, 1], [0, 1, 2, 0, 1, 3]),
  quartersPerMinute: fc.constantFrom(60, 90, 140),
});

const TWISTS: Readonly<Record<number, string>> = { 0: '#', 1: 'b' };

const scoreOf = ({
  degrees,
  bass,
  fifths,
  order,
  quartersPerMinute,
}: typeof tune extends fc.Arbitrary<infer T> ? T : never): Score => {
  const sharps = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];
  const inKey = (letter: string): string =>
    sharps.slice(0, Math.max(0, fifths)).includes(letter)
      ? '#'
      : [...sharps].reverse().slice(0, Math.max(0, -fifths)).includes(letter)
        ? 'b'
        : '';
  const notes = degrees.map(({ step, twist }) => {
    const letter = LETTERS[step % 7]!;
    return `${letter}${TWISTS[twist] ?? inKey(letter)}${4 + Math.floor(step / 7)}/1`;
  });
  const bars = [0, 4, 8, 12].map((from) => notes.slice(from, from + 4).join(' '));
  return smallPart({
    upper: bars.join(' | '),
    lower: bass.join(' | '),
    keyFifths: fifths,
    playOrder: order,
    quartersPerMinute,
  });
};

describe('a lever plan, played by someone who knows nothing but what is printed', () => {
  it('serves every note of tunes on every pass, but for what the findings tell', () => {
    fc.assert(
      fc.property(tune, (drawn) => {
        const score = scoreOf(drawn);
        expectTold(score, planLevers(score));
      }),
      { numRuns: cases(60) },
    );
  });

  it('does so in E flat tuning, whatever the key', () => {
    fc.assert(
      fc.property(tune, (drawn) => {
        const score = scoreOf(drawn);
        expectTold(score, planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning }));
      }),
      { numRuns: cases(40) },
    );
  });

  describe.skipIf(!hasScores)('in real scores (skipped where ../shared/scores is absent)', () => {
    it.each(SMALLER_HARP_SCORES.filter(({ role }) => role === 'harp'))('holds in $file', ({ file, part }) => {
      const opened = openScore(readScoreFile(file), part === undefined ? {} : { part });
      if (!opened.ok) throw new Error(opened.problem.code);
      expectTold(opened.value, planLevers(opened.value));
    });
  });
});
