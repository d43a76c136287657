import { describe, expect, it } from 'vitest';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import type { LeverPlan } from '../../../engine/levers/model.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { pitchName } from '../../../engine/music/pitch.ts';
import { toNumber } from '../../../engine/music/rational.ts';
import type { Score } from '../../../engine/score/model/score.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const planScore = (score: Score): LeverPlan =>
  planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: LEVER_HARP.tuning });

const plan = (part: SmallPart): LeverPlan => planScore(smallPart(part));

const changes = ({ moves }: LeverPlan): string[] =>
  moves.map(({ string, alter, at, hand }) => `${pitchName({ ...string, alter })} at ${toNumber(at)} ${hand}`);

describe('the moment of a lever change', () => {
  it('is in a rest rather than among the notes of the other hand', () => {
    const { moves } = plan({ upper: 'F4/1 C5/1:2 D5/1:2 r/2 | C5/1:2 D5/1:2 C5/1:2 D5/1:2 F#4/2' });
    expect(moves.map(({ at }) => toNumber(at))).toEqual([3]);
  });

  it('is under a long note rather than among quick ones', () => {
    const quick = 'C5/1:2 D5/1:2 C5/1:2 D5/1:2 C5/1:2 D5/1:2 C5/1:2 D5/1:2';
    const { moves } = plan({ upper: `F4/1 C5/1 D5/1 C5/1 | ${quick} | C5/4 | ${quick} | F#4/4` });
    expect(moves.map(({ bar }) => bar)).toEqual([2]);
  });

  it('takes the hand that is not playing: from its last note to its next', () => {
    const [move] = plan({
      upper: 'F4/1 C5/1 C5/1 C5/1 | C5/1 C5/1 C5/1 F#4/1',
      lower: 'C3/1 C3/1 C3/1 C3/1 | C3/1 r/2 C3/1',
    }).moves;
    expect(move).toMatchObject({ hand: 'left' });
    expect([move!.handAway!.after, move!.handAway!.before].map((each) => toNumber(each!.onset))).toEqual([
      4, 7,
    ]);
  });

  it('leaves the hand away from the start, or to the end, where it plays nothing there', () => {
    const [move] = plan({ upper: 'F4/1 r/3 | F#4/4' }).moves;
    expect(move!.handAway).toEqual({ after: null, before: null });
  });

  it('shares two levers of one rest between the hands, each in its own', () => {
    const { moves, summary } = plan({ upper: 'F4+C4/1:2 r/1:2 F#4+C#4/1', quartersPerMinute: 50 });
    expect(moves.map(({ hand }) => hand).sort()).toEqual(['left', 'right']);
    expect(summary.playable).toBe(true);
  });
});

describe('the hand that is free', () => {
  it('is told by words over the notes before the staff tells it', () => {
    const score = smallPart({
      upper: 'F4/1 C4/1 C4/1 C4/1 | C4/1 C4/1 C4/1 F#4/1',
      quartersPerMinute: 120,
    });
    const inLeft = {
      ...score,
      notes: score.notes.map((note) => ({ ...note, hand: { hand: 'left' as const, crossing: null } })),
    };
    expect(planScore(score).moves.map(({ hand }) => hand)).toEqual(['left']);
    // All in the left hand, as the words say: the right sets the lever.
    expect(planScore(inLeft).moves.map(({ hand }) => hand)).toEqual(['right']);
  });
});

describe('a note that its own string could give', () => {
  it('is played on the neighbour where that saves setting a lever there and back', () => {
    const score: SmallPart = { upper: 'D4/1 D4/1 D#4/1 D4/1 | D4/4' };
    const played = plan(score);
    expect(played.moves).toEqual([]);
    expect(played.respellings.map(({ from, to }) => `${pitchName(from)} ${pitchName(to)}`)).toEqual([
      'D♯4 E♭4',
    ]);
    expect(played.findings.map(({ code }) => code)).toContain('played-on-other-string');
  });

  it('stays on its own where the neighbour would have to be set as well', () => {
    const { respellings, moves } = plan({ upper: 'D4+E4/1 E4/1 D#4/1 D4+E4/1 | E4/4' });
    expect(respellings).toEqual([]);
    expect(changes({ moves } as LeverPlan)).toHaveLength(2);
  });

  it('stays on its own where more notes would move than the changes are worth', () => {
    const often = Array.from({ length: 4 }, () => 'D#4/1 D#4/1 D#4/1 D#4/1').join(' | ');
    expect(plan({ upper: `D4/4 | ${often} | D4/4` }).respellings).toEqual([]);
  });

  it('makes room where one string is asked for two pitches at once', () => {
    const { findings, respellings } = plan({ upper: 'D4+D#4/4' });
    expect(findings.map(({ code }) => code)).not.toContain('string-in-two-pitches');
    expect(respellings).toHaveLength(1);
  });

  it('stays where the neighbour still sounds at another pitch', () => {
    const { respellings } = plan({ upper: 'E4/4', lower: 'D4/1 D#4/1 D4/2' });
    expect(respellings).toEqual([]);
  });
});
