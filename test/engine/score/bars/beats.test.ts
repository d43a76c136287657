import { describe, expect, it } from 'vitest';
import { placeTime } from '../../../../engine/decisions/places.ts';
import { rational, toNumber } from '../../../../engine/music/rational.ts';
import { planPedals } from '../../../../engine/pedals/plan.ts';
import { buildPlayback } from '../../../../engine/performance/build-playback.ts';
import { beatsAt, performPart } from '../../../../engine/performance/perform-part.ts';
import { beatAt, beatLength, pulseLength } from '../../../../engine/score/bars/beats.ts';
import { smallPart } from '../../../part-builder.ts';

const EIGHTHS = 'C4/1:2 D4/1:2 E4/1:2 C#4/1:2 D4/1:2 E4/1:2';
const SIX_EIGHT = smallPart({ upper: `${EIGHTHS} | ${EIGHTHS}`, meter: { beats: 6, beatUnit: 8 } });

describe('beat 4 of a bar of 6/8 is its fourth eighth', () => {
  it('wherever beats are told: of a move in the plan, and as beats played before it', () => {
    const plan = planPedals(SIX_EIGHT);
    const performance = performPart(buildPlayback(SIX_EIGHT), plan);
    expect(toNumber(beatAt(SIX_EIGHT.bars[1]!, rational(9, 2)))).toBe(4);
    expect(performance.moves.length).toBeGreaterThan(1);
    for (const { move, at } of performance.moves) {
      const { bar, beat } = plan.moves[move]!;
      expect(beatsAt(performance, at)).toBe(6 * bar + toNumber(beat) - 1);
    }
  });

  it('and where a user names it', () => {
    expect(placeTime(SIX_EIGHT, { barIndex: 1, beat: '4' })).toEqual({ ok: true, at: rational(9, 2) });
  });
});

describe('the pulse, with which feet move', () => {
  it.each([
    [6, 8, 1.5],
    [12, 16, 0.75],
    [3, 8, 0.5],
    [3, 4, 1],
    [2, 2, 2],
  ])('of %i/%i is %d quarter notes', (beats, beatUnit, quarters) => {
    expect(toNumber(pulseLength({ beats, beatUnit }))).toBe(quarters);
    expect(toNumber(beatLength({ beatUnit }))).toBe(4 / beatUnit);
  });
});
