import { describe, expect, it } from 'vitest';
import { rational } from '../../../engine/music/rational.ts';
import { planPedals } from '../../../engine/pedals/plan.ts';
import { listCounts } from '../../../render/markings/beat-counts.ts';
import { smallPart } from '../../part-builder.ts';

describe('counts over the music', () => {
  it('go on in the silent piece of a bar that a repeat divides, and leave silent bars alone', () => {
    const score = smallPart({ upper: 'E4/4 | C4/2 | r/2 | r/4' });
    const half = rational(2);
    const onsets = [0, 4, 6, 8].map((at) => rational(at));
    const bars = score.bars.map((bar, i) => ({
      ...bar,
      onset: onsets[i]!,
      duration: i === 1 || i === 2 ? half : bar.duration,
    }));
    const notes = score.notes.map((note) => ({ ...note, onset: onsets[note.bar]! }));
    const divided = { ...score, bars, notes };
    const counts = listCounts(divided, { plan: planPedals(divided) }, 'every-bar');
    expect(counts.map(({ bar, count }) => `${bar}:${count}`)).toEqual([
      '0:1',
      '0:2',
      '0:3',
      '0:4',
      '1:1',
      '1:2',
      '2:3',
      '2:4',
    ]);
    // The silent upbeat of another movement is no rest of the bar that ends the one before.
    const parted = { ...divided, movements: [2] };
    const before = listCounts(parted, { plan: planPedals(parted) }, 'every-bar');
    expect(before.map(({ bar, count }) => `${bar}:${count}`).slice(4)).toEqual(['1:1', '1:2']);
  });
});
