import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { NoteChange } from '../../../../engine/findings/model.ts';
import type { Plan } from '../../../../engine/pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../../engine/pedals/options.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import type { Score } from '../../../../engine/score/model.ts';
import { smallPart } from '../../../part-builder.ts';
import { withChanges } from '../fix-law.ts';

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

const planWith = (score: Score, changes: readonly NoteChange[]): Plan =>
  planPedals(score, withChanges(SUGGEST, changes));

const expectAgreement = (score: Score): void => {
  const before = planPedals(score, SUGGEST);
  const { suggestions } = before;
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

describe('suggested respellings', () => {
  it('agree with each other in chromatic music, alone and together', () => {
    const part = fc
      .record({
        upper: music,
        quartersPerMinute: fc.constantFrom(50, 120),
        keyFifths: fc.constantFrom(-3, 0, 3),
      })
      .map(smallPart);
    fc.assert(fc.property(part, expectAgreement), { numRuns: 40 });
  });

  it('agree with each other over a repeat', () => {
    const part = fc
      .record({ upper: music, quartersPerMinute: fc.constant(90), playOrder: fc.constant([0, 1, 0, 1, 2]) })
      .map(smallPart);
    fc.assert(fc.property(part, expectAgreement), { numRuns: 15 });
  });
});
