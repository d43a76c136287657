import { describe, expect, it } from 'vitest';
import { tuneToKey } from '../../../engine/harp/open-tuning.ts';
import { LEVER_HARP } from '../../../engine/harp/profiles/lever-harp-34.ts';
import { DEFAULT_LEVER_OPTIONS } from '../../../engine/levers/options.ts';
import { planLevers } from '../../../engine/levers/plan.ts';
import { leversAfterBars } from '../../../engine/levers/play-changes.ts';
import { leversOfTune } from '../../../engine/sets/tune-levers.ts';
import { playLevers } from '../../checker/play-levers.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const planned = (part: SmallPart) => {
  const score = smallPart(part);
  const plan = planLevers(score, { ...DEFAULT_LEVER_OPTIONS, tuning: tuneToKey(0) });
  const told = plan.moves.map(
    ({ string: { letter, octave }, to, bar, onlyAt }) =>
      `${letter}${octave} ${to} in bar ${bar + 1}${onlyAt === null ? '' : `, ${onlyAt} time`}`,
  );
  const { missingNotes, hurries } = playLevers(score, plan, LEVER_HARP, DEFAULT_LEVER_OPTIONS.leverSeconds);
  return { score, plan, told, goesWrong: [...missingNotes, ...hurries] };
};

/** Two bars of which the second is a first ending, and the third the second ending. */
const ENDINGS = [0, 1, 0, 2];

describe('a lever that one time of playing alone needs', () => {
  it('is set the first time only, where the second ending begins with the other note', () => {
    const { plan, told, goesWrong } = planned({
      upper: 'D5/1 r/3 | D#5/1 r/3 | D5/1 r/3',
      playOrder: ENDINGS,
    });
    expect(told).toEqual(['D5 up in bar 1, first time', 'D5 down in bar 2']);
    expect(plan.summary.playable).toBe(true);
    expect(goesWrong).toEqual([]);
  });

  it('is set later times only, where the first ending begins with the other note', () => {
    const { told, goesWrong } = planned({ upper: 'D5/1 r/3 | D5/1 r/3 | D#5/1 r/3', playOrder: ENDINGS });
    expect(told).toEqual(['D5 up in bar 1, later time']);
    expect(goesWrong).toEqual([]);
  });

  it('is set each time where the ending itself leaves time for it', () => {
    const { told, goesWrong } = planned({ upper: 'D5/1 r/3 | r/2 D#5/1 r/1 | D5/1 r/3', playOrder: ENDINGS });
    expect(told).toEqual(['D5 up in bar 2', 'D5 down in bar 2']);
    expect(goesWrong).toEqual([]);
  });

  it('is set beforehand as its first note needs, not as the repeat leaves it', () => {
    const { plan, told, goesWrong } = planned({
      upper: 'r/4 | D5/1 r/2 D#5/1 | r/4',
      playOrder: [0, 1, 2, 0],
    });
    expect(plan.initial).toEqual([]);
    expect(told).toEqual(['D5 up in bar 2']);
    expect(goesWrong).toEqual([]);
  });

  it('stands after the tune as the last time leaves it', () => {
    const { score, plan } = planned({ upper: 'D5/1 r/3 | D#5/1 r/3 | D5/1 r/3', playOrder: ENDINGS });
    expect(leversAfterBars([0], plan)).toEqual(new Set(['D5']));
    expect(leversAfterBars([0, 1, 0], plan)).toEqual(new Set());
    expect(leversOfTune(score, plan).last.get('D5')).toBe(false);
  });
});
