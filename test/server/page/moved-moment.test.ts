import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Decisions, NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { placeDecisions } from '../../../engine/decisions/place-decisions.ts';
import { rational, rationalKey, toNumber } from '../../../engine/music/rational.ts';
import { DEFAULT_PLAN_OPTIONS } from '../../../engine/pedals/options.ts';
import { buildPedalProblem, prepareScore } from '../../../engine/pedals/pedal-problem.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { moveQuarters } from '../../../server/page/client/chart/geometry/chart-geometry.ts';
import { moveTo, pinOfMove } from '../../../server/page/client/decisions/decision-edits.ts';
import { describeEnding, whyNotEarlier } from '../../../server/page/client/decisions/window-words.ts';
import { listMomentPlaces, rangesOf } from '../../../server/page/client/planner/allowed-moments.ts';
import { beginningOf, boundsOf, isMadeInPause } from '../../../server/page/client/planner/move-bounds.ts';
import { allowedFor, nearestMoment, stepMoment } from '../../../server/page/client/planner/moved-moment.ts';
import { readPart } from '../../../server/page/client/planner/read-part.ts';
import { smallPart } from '../../part-builder.ts';
import { cases } from '../../thorough.ts';

const planWith = (score: Score, decisions: Decisions = NO_DECISIONS) => {
  const placed = placeDecisions(score, decisions);
  const options = { ...DEFAULT_PLAN_OPTIONS, pins: placed.pins };
  const plan = planPedals(score, options);
  const prepared = prepareScore(score, options);
  const ranges = rangesOf(prepared, buildPedalProblem(prepared, new Map()), plan);
  return { plan, ranges, moments: listMomentPlaces(score) };
};

const placesFor = (part: ReturnType<typeof planWith>, move: number): readonly string[] =>
  allowedFor(part, move).map(({ barIndex: bar, beat }) => `${bar + 1}:${beat}`);

/** C natural on the first beat, C sharp on the first beat of bar 2: the pedal moves between. */
const TWO_BARS = smallPart({ upper: 'C4/1 E4/1 E4/1 E4/1 | C#4/4', quartersPerMinute: 200 });

describe('where a move may be dragged', () => {
  it('is after the last note of the old position, and at the latest with the first of the new', () => {
    const part = planWith(TWO_BARS);
    expect(part.plan.moves).toHaveLength(1);
    expect(placesFor(part, 0)).toEqual(['1:2', '1:3', '1:4', '2:1']);
  });

  it('is not past the move of the same pedal before', () => {
    const part = planWith(
      smallPart({ upper: 'C4/1 E4/1 C#4/1 E4/1 | E4/1 C4/1 E4/2', quartersPerMinute: 200 }),
    );
    expect(placesFor(part, 0)).toEqual(['1:2', '1:3']);
    expect(placesFor(part, 1)).toEqual(['1:4', '2:1', '2:2']);
  });

  it('is not before the pause in which it is made, though the notes of the movement before would let it', () => {
    const score = {
      ...smallPart({ upper: 'C4/1 E4/3 | E4/1 C#4/1 E4/2', quartersPerMinute: 200 }),
      movements: [1],
      pauses: [1],
    };
    const part = { ...readPart(score, [], 0), ...planWith(score) };
    expect(placesFor(part, 0)).toEqual(['2:1', '2:2']);
    const bounds = boundsOf(part, 0);
    expect(isMadeInPause(part, bounds)).toBe(true);
    expect(beginningOf(part, bounds)).toBe(4);
    expect(whyNotEarlier(part, bounds)).toBe('No earlier: only from the pause before movement II on');
    expect(describeEnding(part, bounds)).toMatch(/^before C♯4/);
  });

  it('goes a moment earlier or later by key, and no farther than the window', () => {
    const part = planWith(TWO_BARS);
    const beats = ['2', '3', '4', '1'];
    const at = beats.indexOf(rationalKey(part.plan.moves[0]!.beat));
    expect(stepMoment(part, 0, 'earlier')?.beat).toBe(beats[at - 1]);
    expect(stepMoment(part, 0, 'later')?.beat).toBe(beats[at + 1]);
  });

  it('snaps to the nearest moment', () => {
    const { moments } = planWith(TWO_BARS);
    expect(nearestMoment(moments, 1.4)?.quarters).toBe(1);
    expect(nearestMoment(moments, 1.6)?.quarters).toBe(2);
    expect(nearestMoment(moments, -50)?.quarters).toBe(0);
    expect(nearestMoment([], 1)).toBeNull();
  });

  it('is where the planner then makes it: every moment offered is granted', () => {
    const pluck = fc.constantFrom('C4/1', 'C#4/1', 'E4/1', 'Eb4/1', 'F4/1', 'F#4/1', 'G4/1');
    fc.assert(
      fc.property(fc.array(pluck, { minLength: 8, maxLength: 12 }), fc.nat(), fc.nat(), (notes, a, b) => {
        const bars = Array.from({ length: notes.length >> 2 }, (_, i) => notes.slice(4 * i, 4 * i + 4));
        const score = smallPart({
          upper: bars.map((bar) => bar.join(' ')).join(' | '),
          quartersPerMinute: 60,
        });
        const part = planWith(score);
        fc.pre(part.plan.moves.length > 0);
        const at = a % part.plan.moves.length;
        const allowed = allowedFor(part, at);
        expect(allowed.length).toBeGreaterThan(0);
        const place = allowed[b % allowed.length]!;
        const decisions = moveTo(NO_DECISIONS, part.plan.moves[at]!, place);
        const { plan } = planWith(score, decisions);
        expect(plan.moves.filter((move) => pinOfMove(decisions, move) !== null)).toHaveLength(1);
        expect(plan.findings.filter(({ code }) => code === 'pin-not-honoured')).toEqual([]);
      }),
      { numRuns: cases(60) },
    );
  });
});

describe('where a move is drawn', () => {
  it('is at the start of a bar of rest, where every text tells it', () => {
    const score = smallPart({ upper: 'C4/4 | r/4 | C#4/4', quartersPerMinute: 60 });
    const part = { ...planWith(score), ...readPart(score, [], 0) };
    const [move] = part.plan.moves;
    expect(move!.bar).toBe(1);
    expect(moveQuarters(part, move!)).toBe(4);
    expect(moveQuarters(part, { ...move!, at: rational(6) })).toBe(4);
  });

  it('is at its own moment in every other bar', () => {
    const part = { ...planWith(TWO_BARS), ...readPart(TWO_BARS, [], 0) };
    for (const move of part.plan.moves) expect(moveQuarters(part, move)).toBe(toNumber(move.at));
  });
});
