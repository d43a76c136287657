import { describe, expect, it } from 'vitest';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { buildPlayback } from '../../../engine/performance/build-playback.ts';
import { performPart } from '../../../engine/performance/perform-part.ts';
import { countIn, pulseOf } from '../../../engine/performance/pulse.ts';
import { type SmallPart, smallPart } from '../../part-builder.ts';

const performanceOf = (part: SmallPart) => {
  const score = smallPart(part);
  return performPart(buildPlayback(score), planPedals(score));
};

const strokes = (part: SmallPart): string[] => {
  const performance = performanceOf(part);
  return performance.bars.map((_, i) =>
    pulseOf(performance, i)
      .map(({ at, isFirst }) => `${isFirst ? 'ONE ' : ''}${Math.round(at * 1000) / 1000}`)
      .join(', '),
  );
};

describe('the pulse of a bar', () => {
  it('is its beats: four in 4/4, at the tempo', () => {
    expect(strokes({ upper: 'C4/4 | D4/4', quartersPerMinute: 120 })).toEqual([
      'ONE 0, 0.5, 1, 1.5',
      'ONE 2, 2.5, 3, 3.5',
    ]);
  });

  it('is felt in threes where six eighths make the bar, and in three eighths where three do', () => {
    expect(strokes({ upper: 'C4/3', meter: { beats: 6, beatUnit: 8 }, quartersPerMinute: 60 })).toEqual([
      'ONE 0, 1.5',
    ]);
    expect(strokes({ upper: 'C4/3:2', meter: { beats: 3, beatUnit: 8 }, quartersPerMinute: 60 })).toEqual([
      'ONE 0, 0.5, 1',
    ]);
  });

  it('has no first stroke in an upbeat, before which a whole bar is counted', () => {
    const score = smallPart({ upper: 'G4/1 | C4/4 | D4/4', quartersPerMinute: 60 });
    const hearing = buildPlayback(score);
    const [first, ...others] = hearing.bars;
    const bars = [{ ...first!, durationQuarters: 1, seconds: 1 }, ...others];
    const performance = performPart({ ...hearing, bars }, planPedals(score));
    expect(pulseOf(performance, 0)).toEqual([{ at: 0, isFirst: false }]);
    expect(countIn(performance, 0)).toEqual([
      { before: 4, isFirst: true },
      { before: 3, isFirst: false },
      { before: 2, isFirst: false },
      { before: 1, isFirst: false },
    ]);
  });
});
