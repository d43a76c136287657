import { describe, expect, it } from 'vitest';
import { joinSettings, joinSlips, joinWithOpening } from '../../../engine/attempt/join-faults.ts';
import { UNJUDGED } from '../../../engine/attempt/judged-change.ts';
import type { JudgedChange, StatedPedal } from '../../../engine/attempt/model.ts';
import { LETTERS, type Letter } from '../../../engine/music/pitch.ts';
import { demoScore } from '../../demo-score.ts';

type Change = JudgedChange<StatedPedal>;

/** At a beat of a bar of four. */
const at = (bar: number, beat: number) => ({
  at: { num: 4 * bar + beat - 1, den: 1 },
  bar,
  beat: { num: beat, den: 1 },
});

const change = (
  place: ReturnType<typeof at>,
  letter: Letter,
  position: -1 | 0 | 1,
  more: Partial<Change>,
): Change => ({
  ...{ kind: 'change', verdict: 'right', ...place, ...UNJUDGED, marking: 1 },
  stated: [{ letter, position }],
  ...more,
});

const wrong: Partial<Change> = { verdict: 'wrong', correction: { kind: 'strike', against: [] } };
const missing: Partial<Change> = { verdict: 'missing', marking: null };

describe('what a teacher takes for one fault', () => {
  it.each<[string, Letter, -1 | 0 | 1]>([
    ['the wrong pedal with the right sign', 'D', 1],
    ['the right pedal with the wrong sign', 'C', -1],
  ])('is told as one: %s, a bar too early', (_, letter, position) => {
    const wanted = at(5, 2);
    const [only, ...others] = joinSlips([
      change(at(4, 3), letter, position, wrong),
      change(wanted, 'C', 1, missing),
    ]);
    expect(others).toEqual([]);
    expect(only).toMatchObject({
      verdict: 'wrong',
      correction: { kind: 'write', stated: [{ letter: 'C', position: 1 }], to: wanted },
    });
  });

  it('does not hide another: elsewhere, of another pedal and sign, or already past', () => {
    const missed = change(at(5, 2), 'C', 1, missing);
    for (const other of [
      change(at(2, 1), 'D', 1, wrong),
      change(at(5, 1), 'D', 0, wrong),
      change(at(5, 3), 'D', 1, wrong),
    ])
      expect(joinSlips([other, missed])).toEqual([other, missed]);
  });

  it('may be a whole setting in the wrong place', () => {
    const to = at(3, 4);
    const setting = LETTERS.map((letter) =>
      change(at(3, 1), letter, 0, { verdict: 'wrong', correction: { kind: 'move', to } }),
    );
    const [only, ...others] = joinSettings(setting);
    expect(others).toEqual([]);
    expect(only!.stated).toHaveLength(LETTERS.length);
    expect(joinSettings(setting.slice(1))).toEqual(setting.slice(1));
  });

  it('is the opening where pedals are missing that no note has asked for yet, not where one has', () => {
    const score = demoScore('lanterns-at-the-lock');
    const start = { ...at(0, 1), at: score.bars[0]!.onset };
    const opening = change(start, 'C', 0, { kind: 'opening' });
    const first = score.notes.find(({ pitch }) => pitch.letter === 'B')!;
    const second = score.notes.find(({ pitch, onset }) => pitch.letter === 'B' && onset !== first.onset)!;
    const before = change({ ...at(0, 2), at: first.onset }, 'B', -1, missing);
    const after = change({ ...at(0, 2), at: second.onset }, 'B', -1, missing);
    expect(joinWithOpening([opening, before], score)).toMatchObject([
      { verdict: 'wrong', correction: { kind: 'write', stated: before.stated } },
    ]);
    expect(joinWithOpening([opening, after], score)).toEqual([opening, after]);
  });
});
