import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveFeet } from '../../../../engine/pedals/course/solve.ts';
import type { Plan, SpellingSuggestion } from '../../../../engine/pedals/model.ts';
import { withChanges } from '../../../../engine/pedals/offers/trials.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../../engine/pedals/options.ts';
import { buildPedalProblem, prepareScore } from '../../../../engine/pedals/pedal-problem.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import { suggestSpellings } from '../../../../engine/pedals/spelling/suggestions.ts';
import type { Score } from '../../../../engine/score/model/score.ts';
import type { NoteChange } from '../../../../engine/sounding/changed-needs.ts';
import { type ChosenSpelling, otherStrings } from '../../../../engine/sounding/needs.ts';
import { smallPart } from '../../../part-builder.ts';
import { cases } from '../../../thorough.ts';

const SUGGEST: PlanOptions = { ...DEFAULT_PLAN_OPTIONS, spelling: 'suggest' };

/** Codes and notes of what the feet cannot do. */
const stopsOf = ({ findings }: Plan): ReadonlySet<string> =>
  new Set(
    findings
      .filter(({ code }) =>
        ['pedal-in-two-positions', 'string-in-two-pitches', 'foot-too-busy'].includes(code),
      )
      .flatMap(({ places }) => places.map(({ notes }) => notes.at(0)!)),
  );

/** Suggestions made from any spelling, as if it were the free one of the part. */
const suggestionsFrom = (score: Score, spelling: ChosenSpelling): readonly SpellingSuggestion[] => {
  const prepared = prepareScore(score, DEFAULT_PLAN_OPTIONS);
  const problem = buildPedalProblem(prepared, new Map());
  const solution = solveFeet(problem.needs, problem.context);
  return suggestSpellings(prepared, problem, solution, spelling);
};

const planWith = (score: Score, changes: readonly NoteChange[]): Plan =>
  planPedals(score, withChanges(DEFAULT_PLAN_OPTIONS, changes));

const expectAgreement = (score: Score, suggestions: readonly SpellingSuggestion[]): void => {
  const before = planWith(score, []);
  const alone = suggestions.map(({ changes }) => planWith(score, changes));
  suggestions.forEach(({ savesMoves }, i) => {
    expect(alone[i]!.summary.moves).toBe(before.summary.moves - savesMoves);
    expect(stopsOf(alone[i]!).size).toBeLessThanOrEqual(stopsOf(before).size);
  });
  const all = planWith(
    score,
    suggestions.flatMap(({ changes }) => changes),
  );
  const said = suggestions.reduce((sum, { savesMoves }) => sum + Math.max(0, -savesMoves), 0);
  expect(all.summary.moves).toBeLessThanOrEqual(before.summary.moves + said);
  expect(stopsOf(all).size).toBeLessThanOrEqual(
    Math.min(stopsOf(before).size, ...alone.map((each) => stopsOf(each).size)),
  );
};

const pitch = fc
  .tuple(
    fc.constantFrom('C', 'D', 'E', 'F', 'G', 'A', 'B'),
    fc.constantFrom('', '#', 'b', '#', 'b'),
    fc.constantFrom(4, 5),
  )
  .map(([letter, accidental, octave]) => `${letter}${accidental}${octave}/1:2`);

const music = fc
  .array(fc.array(pitch, { minLength: 8, maxLength: 8 }), { minLength: 3, maxLength: 3 })
  .map((bars) => bars.map((bar) => bar.join(' ')).join(' | '));

const somePart = (playOrder: readonly number[]) =>
  fc
    .record({
      upper: music,
      quartersPerMinute: fc.constantFrom(50, 120),
      keyFifths: fc.constantFrom(-3, 0, 3),
      playOrder: fc.constant(playOrder),
    })
    .map(smallPart);

const someSpelling = (score: Score): fc.Arbitrary<ChosenSpelling> =>
  fc.subarray([...score.notes]).map(
    (notes) =>
      new Map(
        notes.flatMap(({ id, pitch }) =>
          otherStrings(pitch)
            .slice(0, 1)
            .map((to) => [id, to] as const),
        ),
      ),
  );

const partAndSpelling = (playOrder: readonly number[]) =>
  somePart(playOrder).chain((score) => fc.tuple(fc.constant(score), someSpelling(score)));

describe('suggested respellings', () => {
  it('do not both take one pedal: C♯ as D♭ saves moves, and so does E♭ as D♯, but not both', () => {
    const score = smallPart({
      upper: 'C#4/1 Eb4/1 C#4/1 Eb4/1 | C4/1 E4/1 C#4/1 Eb4/1 | C#4/1 Eb4/1 C#4/1 Eb4/1',
      quartersPerMinute: 60,
    });
    const toD = new Map(
      score.notes.flatMap(({ id, pitch }) =>
        pitch.alter === 0 ? [] : otherStrings(pitch).map((to) => [id, to] as const),
      ),
    );
    const suggestions = suggestionsFrom(score, toD);
    expect(suggestions.map(({ savesMoves }) => savesMoves)).toEqual([2]);
    expectAgreement(score, suggestions);
  });

  it('agree with each other, alone and together, whatever spelling they come from', () => {
    fc.assert(
      fc.property(partAndSpelling([0, 1, 2]), ([score, spelling]) =>
        expectAgreement(score, suggestionsFrom(score, spelling)),
      ),
      { numRuns: cases(20) },
    );
  });

  it('agree with each other over a repeat', () => {
    fc.assert(
      fc.property(partAndSpelling([0, 1, 0, 1, 2]), ([score, spelling]) =>
        expectAgreement(score, suggestionsFrom(score, spelling)),
      ),
      { numRuns: 4 },
    );
  });

  it('agree with each other as a part is planned', () => {
    fc.assert(
      fc.property(somePart([0, 1, 2]), (score) =>
        expectAgreement(score, planPedals(score, SUGGEST).suggestions),
      ),
      { numRuns: 4 },
    );
  });
});
