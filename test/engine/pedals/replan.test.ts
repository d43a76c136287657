import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Pin } from '../../../engine/harp/pin.ts';
import { formatChange, type Position } from '../../../engine/harp/setting.ts';
import { LETTERS } from '../../../engine/music/pitch.ts';
import { rational, toNumber } from '../../../engine/music/rational.ts';
import { keepAsPlanned } from '../../../engine/pedals/keep-planned.ts';
import type { Plan } from '../../../engine/pedals/model.ts';
import { DEFAULT_PLAN_OPTIONS, type PlanOptions } from '../../../engine/pedals/options.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { createReplanner } from '../../../engine/pedals/replan.ts';
import { DEFAULT_WEIGHTS } from '../../../engine/pedals/weights.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { openScore } from '../../../engine/score/open.ts';
import { settingAtQuarters } from '../../../engine/settings/setting-at.ts';
import { otherStrings } from '../../../engine/sounding/needs.ts';
import { joinBars, writeBars, writeLongPart } from '../../bench/long-part.ts';
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
      fc.record({ kind: fc.constant('move' as const), letter, position, at }),
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

  it('counts the fewest moves of a free spelling by the pins of today: of the F one, where it is held at F♯ and then at F♮', () => {
    const score = smallPart({ upper: 'D4/1 r/3 | r/4' });
    const replan = createReplanner(score);
    const held = (position: Position): PlanOptions => ({
      ...DEFAULT_PLAN_OPTIONS,
      spelling: 'free',
      pins: [
        { kind: 'position', letter: 'F', position, from: rational(0), until: rational(1) },
        { kind: 'position', letter: 'F', position: 0, from: rational(4), until: rational(5) },
      ],
    });
    for (const position of [0, 1] as const) {
      expect(replan(held(position)).summary).toEqual(planPedals(score, held(position)).summary);
    }
  });

  it('lets a pin go as it came', () => {
    const score = smallPart({ upper: 'C4/1 r/2 C#4/1 | r/3 C4/1' });
    const replan = createReplanner(score);
    const before = replan(DEFAULT_PLAN_OPTIONS);
    const pin: Pin = { kind: 'move', letter: 'C', position: 1, at: rational(1) };
    expect(replan({ ...DEFAULT_PLAN_OPTIONS, pins: [pin] }).moves[0]!.at).toEqual(rational(1));
    expect(replan(DEFAULT_PLAN_OPTIONS)).toEqual(before);
  });
});

const LONG_PART = writeBars(40);

const openBars = (bars: readonly string[]): Score => {
  const opened = openScore(new TextEncoder().encode(joinBars(bars)));
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

/** Each pedal is wanted in one position at a time, so that all can be played. */
const singleNotes = fc
  .array(token, { minLength: 4, maxLength: 4 })
  .map((notes) => notes.map((note) => `${note}/1`).join(' '));

describe('planning some bars between others that stay as they were planned', () => {
  const stretch = (first: number, last: number) => ({
    from: rational(4 * first),
    until: rational(4 * (last + 1)),
  });
  const tell = ({ moves }: Plan, from: number, until: number, begins = 0) =>
    moves
      .map((move) => ({ ...move, quarters: toNumber(move.at) + begins }))
      .filter(({ quarters }) => quarters > from && quarters < until)
      .map(({ letter, to, quarters }) => `${formatChange(letter, to)} at ${quarters}`);

  it('gives the plan of the whole part, where a bar is written anew with four bars of music on either side', () => {
    const plan = planPedals(openBars(LONG_PART));
    for (const changed of [6, 13, 20, 27, 34]) {
      const bars = LONG_PART.with(changed, LONG_PART[(changed + 17) % 40]!);
      const [first, last] = [changed - 4, changed + 4];
      const pins = [
        ...keepAsPlanned(plan, stretch(first, first), rational(0)),
        ...keepAsPlanned(plan, stretch(last, last), rational(32)),
      ];
      const between = planPedals(openBars(bars.slice(first, last + 1)), { ...DEFAULT_PLAN_OPTIONS, pins });
      const anew = planPedals(openBars(bars));
      expect(tell(between, 4 * first, 4 * last + 4, 4 * first)).toEqual(tell(anew, 4 * first, 4 * last + 4));
      expect([...tell(plan, -1, 4 * first), ...tell(plan, 4 * last + 4, 160)]).toEqual([
        ...tell(anew, -1, 4 * first),
        ...tell(anew, 4 * last + 4, 160),
      ]);
    }
  }, 60_000);

  it('begins and ends with the pedals where the plan has them, whatever is written between', () => {
    fc.assert(
      fc.property(fc.array(singleNotes, { minLength: 5, maxLength: 5 }), singleNotes, (bars, other) => {
        const plan = planPedals(smallPart({ upper: bars.join(' | ') }));
        const changed = smallPart({ upper: [bars[1], other, bars[3]].join(' | ') });
        const pins = [
          ...keepAsPlanned(plan, stretch(1, 1), rational(0)),
          ...keepAsPlanned(plan, stretch(3, 3), rational(8)),
        ];
        const between = planPedals(changed, { ...DEFAULT_PLAN_OPTIONS, pins });
        expect(between.initial).toEqual(settingAtQuarters(plan, 4));
        expect(settingAtQuarters(between, 8)).toEqual(settingAtQuarters(plan, 12));
        expect(tell(between, 4, 8, 4)).toEqual(tell(plan, 4, 8));
        expect(tell(between, 12, 16, 4)).toEqual(tell(plan, 12, 16));
      }),
      { numRuns: 15 },
    );
  });
});
