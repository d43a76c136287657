import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Pin } from '../../../engine/harp/pin.ts';
import type { Position } from '../../../engine/harp/setting.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';
import { rational } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { createReplanner } from '../../../engine/pedals/replan.ts';
import { DEFAULT_WEIGHTS } from '../../../engine/pedals/weights.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { otherStrings } from '../../../engine/sounding/needs.ts';
import { writeLongPart } from '../../bench/long-part.ts';
import { smallPart } from '../../part-builder.ts';

const BARS = 3;

const token = fc
  .tuple(
    fc.constantFrom('C', 'D', 'E', 'F', 'G', 'A', 'B'),
    fc.constantFrom('', '#', 'b'),
    fc.constantFrom(4, 5),
  )
  .map(([letter, accidental, octave]) => `${letter}${accidental}${octave}`);

const bar = fc
  .array(fc.tuple(token, fc.option(token)), { minLength: 4, maxLength: 4 })
  .map((notes) =>
    notes.map(([note, other]) => (other === null ? `${note}/1` : `${note}+${other}/1`)).join(' '),
  );

/** The middle one may be a rest, in which pedals are set anew. */
const barsOf = fc
  .tuple(bar, fc.oneof({ weight: 3, arbitrary: bar }, { weight: 1, arbitrary: fc.constant('r/4') }), bar)
  .map((bars) => bars.join(' | '));

const somePart: fc.Arbitrary<Score> = fc
  .record({
    upper: barsOf,
    keyFifths: fc.constantFrom(-3, 0, 2, [-3, -3, 2]),
    quartersPerMinute: fc.constantFrom(60, 150),
    playOrder: fc.constantFrom([0, 1, 2], [0, 1, 0, 1, 2], [0, 1, 0, 2]),
  })
  .map(smallPart);

const time = fc.integer({ min: 0, max: BARS * 8 }).map((eighth) => rational(eighth, 2));
const position = fc.constantFrom<Position>(-1, 0, 1);
const letter = fc.constantFrom(...LETTERS);

const somePin: fc.Arbitrary<Pin> = fc.oneof(
  fc.record({ kind: fc.constant('position' as const), letter, position, from: time, until: fc.option(time) }),
  fc.record({ kind: fc.constant('move' as const), letter, position, at: time }),
  fc.record({ kind: fc.constant('forbid' as const), from: time, until: time }),
);

/** One thing that a user changes; the rest stays as it was. */
const someChange = (score: Score): fc.Arbitrary<Partial<PlanOptions>> => {
  const note = fc.constantFrom(...score.notes);
  const pins = fc.array(somePin, { maxLength: 2 }).map((each) => ({ pins: each }));
  return fc.oneof(
    { weight: 5, arbitrary: pins },
    fc.constantFrom('keep', 'suggest', 'free').map((spelling) => ({ spelling }) as Partial<PlanOptions>),
    fc.boolean().map((pedalsTogether) => ({ pedalsTogether })),
    fc.boolean().map((crossFeet) => ({ crossFeet })),
    fc.constantFrom(0.1, 0.25, 0.6).map((footRestSeconds) => ({
      weights: { ...DEFAULT_WEIGHTS, footRestSeconds },
    })),
    fc.array(note, { maxLength: 2 }).map((notes) => ({ omitted: new Set(notes.map(({ id }) => id)) })),
    fc.array(note, { maxLength: 2 }).map((notes) => ({
      respelled: new Map(
        notes.flatMap(({ id, pitch }) => otherStrings(pitch).map((other) => [id, other] as const)),
      ),
    })),
  );
};

const session = somePart.chain((score) =>
  fc.array(someChange(score), { minLength: 2, maxLength: 4 }).map((changes) => ({ score, changes })),
);

describe('planning again', () => {
  it('gives what planning afresh gives, whatever was planned before', () => {
    fc.assert(
      fc.property(session, ({ score, changes }) => {
        const replan = createReplanner(score);
        let options = DEFAULT_PLAN_OPTIONS;
        for (const change of changes) {
          options = { ...options, ...change };
          expect(replan(options)).toEqual(planPedals(score, options));
        }
      }),
      { numRuns: 6 },
    );
  }, 120_000);

  it('does so in a long part, wherever pins come and go', () => {
    const opened = openScore(new TextEncoder().encode(writeLongPart(30)));
    if (!opened.ok) throw new Error(opened.problem.code);
    const score = opened.value;
    const at = fc.nat({ max: 30 * 8 }).map((eighth) => rational(eighth, 2));
    const pin: fc.Arbitrary<Pin> = fc.oneof(
      fc.record({
        kind: fc.constant('position' as const),
        letter,
        position,
        from: at,
        until: fc.option(at),
      }),
      fc.record({ kind: fc.constant('forbid' as const), from: at, until: at }),
    );
    fc.assert(
      fc.property(fc.array(fc.array(pin, { maxLength: 3 }), { minLength: 6, maxLength: 6 }), (each) => {
        const replan = createReplanner(score);
        for (const pins of each) {
          const options = { ...DEFAULT_PLAN_OPTIONS, pins };
          expect(replan(options)).toEqual(planPedals(score, options));
        }
      }),
      { numRuns: 5 },
    );
  }, 120_000);

  it('lets a pin go as it came', () => {
    const score = smallPart({ upper: 'C4/1 r/2 C#4/1 | r/3 C4/1' });
    const replan = createReplanner(score);
    const before = replan(DEFAULT_PLAN_OPTIONS);
    const pin: Pin = { kind: 'move', letter: 'C', position: 1, at: rational(1) };
    expect(replan({ ...DEFAULT_PLAN_OPTIONS, pins: [pin] }).moves[0]!.at).toEqual(rational(1));
    expect(replan(DEFAULT_PLAN_OPTIONS)).toEqual(before);
  });
});
