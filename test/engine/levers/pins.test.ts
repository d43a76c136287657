import { describe, expect, it } from 'vitest';
import type { LeverPin } from '../../../engine/harp/lever-pin.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import type { LeverPlan } from '../../../engine/levers/model.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { rational, toNumber } from '../../../engine/music/rational.ts';
import { playLevers } from '../../checker/play-levers.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const F4 = { letter: 'F', octave: 4 } as const;
const A4 = { letter: 'A', octave: 4 } as const;

const planWith = (part: SmallPart, pins: readonly LeverPin[]): LeverPlan =>
  planLevers(smallPart(part), { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning, pins });

const changes = ({ moves }: LeverPlan): string[] =>
  moves.map(({ string, alter, at, hand }) => `${pitchName({ ...string, alter })} at ${toNumber(at)} ${hand}`);

const pinsTold = ({ findings }: LeverPlan): string[] =>
  findings.filter(({ code }) => code === 'lever-pin-not-honoured').map(({ sentence }) => sentence);

/** F natural, six quarters without F, F sharp. */
const WINDOW: SmallPart = { upper: 'F4/1 C5/1 C5/1 C5/1 | C5/1 C5/1 C5/1 F#4/1' };

const moveAt = (quarters: number, more: object = {}): LeverPin => ({
  kind: 'lever-move',
  string: F4,
  to: 'up',
  at: rational(quarters),
  hand: null,
  ...more,
});

describe('a pinned lever change', () => {
  it.each([2, 3, 4, 5])('is made where it is pinned, at quarter %i', (at) => {
    const plan = planWith(WINDOW, [moveAt(at)]);
    expect(changes(plan)).toEqual([`F♯4 at ${at} left`]);
    expect(pinsTold(plan)).toEqual([]);
  });

  it('is given to the hand that the user names, though the other is free', () => {
    const rests: SmallPart = { upper: 'F4/1 r/3 | F#4/4' };
    expect(changes(planWith(rests, [moveAt(2)]))).toEqual(['F♯4 at 2 left']);
    const plan = planWith(rests, [moveAt(2, { hand: 'right' })]);
    expect(changes(plan)).toEqual(['F♯4 at 2 right']);
    expect(plan.summary.playable).toBe(true);
  });

  it('in a hand that plays is told as one for which it is not free', () => {
    const { findings } = planWith(WINDOW, [moveAt(4, { hand: 'right' })]);
    expect(findings.map(({ code }) => code)).toContain('no-free-hand');
  });

  it('holds in a part that is played from wherever the player comes', () => {
    const score = smallPart({ ...WINDOW, playOrder: [0, 1, 0, 1] });
    const pins = [moveAt(5)];
    const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning, pins });
    const played = playLevers(score, plan, LEVER_HARP, DEFAULT_LEVER_OPTIONS.leverSeconds);
    expect(played.missingNotes).toEqual([]);
    expect(changes(plan)).toContain('F♯4 at 5 left');
  });

  it('sets a lever that no note needs', () => {
    const plan = planWith(WINDOW, [moveAt(3), { ...moveAt(2), string: A4 } as LeverPin]);
    expect(changes(plan)).toEqual(['A4 at 2 left', 'F♯4 at 3 left']);
  });

  it('is told where a note contradicts it, where nothing falls there, and where the harp has no such lever', () => {
    expect(pinsTold(planWith(WINDOW, [moveAt(0)]))).toEqual([
      'F4 lever up cannot be pinned here: a note in bar 1 needs it down.',
    ]);
    expect(pinsTold(planWith(WINDOW, [{ ...moveAt(0), at: rational(1, 7) } as LeverPin]))).toEqual([
      'F4 lever up cannot be pinned here: there is no note or beat at this place.',
    ]);
    expect(pinsTold(planWith(WINDOW, [moveAt(2, { string: { letter: 'F', octave: 7 } })]))).toEqual([
      'F7 lever up cannot be pinned: this harp has no such lever.',
    ]);
  });
});

describe('a pinned lever position', () => {
  it('holds the lever until it ends', () => {
    const held: LeverPin = {
      kind: 'lever-position',
      string: F4,
      to: 'down',
      from: rational(1),
      until: rational(6),
    };
    expect(changes(planWith(WINDOW, [held]))).toEqual(['F♯4 at 6 left']);
  });

  it('to the end is told where the note needs the lever', () => {
    const held: LeverPin = { kind: 'lever-position', string: F4, to: 'down', from: rational(1), until: null };
    const plan = planWith(WINDOW, [held]);
    expect(pinsTold(plan)).toEqual(['F4 lever down cannot be pinned here: a note in bar 2 needs it up.']);
    expect(plan.moves).toHaveLength(1);
  });
});

describe('a passage without changes', () => {
  it('is kept free of them where there is another place', () => {
    const free: LeverPin = { kind: 'forbid', from: rational(1), until: rational(5) };
    const plan = planWith(WINDOW, [free]);
    expect(plan.moves.every(({ at }) => toNumber(at) >= 5)).toBe(true);
    expect(pinsTold(plan)).toEqual([]);
  });

  it('is told of where there is none', () => {
    const all: LeverPin = { kind: 'forbid', from: rational(0), until: rational(8) };
    expect(pinsTold(planWith(WINDOW, [all]))).toEqual([
      'F4 lever up has to be set here, where you allow no changes.',
    ]);
  });
});
