import { describe, expect, it } from 'vitest';
import { createKnownScores, scoreKey } from '../../../server/threads/tasks/known-scores.ts';
import { planScore } from '../../../server/threads/tasks/plan-score.ts';
import type { StageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { meiScore } from '../../render/small-score.ts';

const CLOCK: StageClock = { begin: () => {}, stop: () => ({}) } as unknown as StageClock;

const notesOf = async (bytes: Uint8Array, choice: { readonly part?: string } = {}) => {
  const planned = await planScore({ bytes, fileName: 'reeds.mei' }, choice, CLOCK);
  if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
  return planned.value.score.notes;
};

describe('a piece that is worked on', () => {
  const bars = ['c4.4 e4.4 g4.2/c3.1', 'c#4.1/R'];

  it('is read once, whatever is decided about it, so that its layout is known', async () => {
    const first = await notesOf(meiScore({ bars }));
    expect(await notesOf(meiScore({ bars }))).toBe(first);
  });

  it('is not taken for another, however alike', async () => {
    const first = await notesOf(meiScore({ bars }));
    const other = await notesOf(meiScore({ bars: [bars[0]!, 'c4.1/R'] }));
    expect(other).not.toBe(first);
    expect(other.at(-1)!.pitch.alter).toBe(0);
  });

  it('makes room for others: a thread holds two', async () => {
    const known = createKnownScores();
    const planned = await planScore({ bytes: meiScore({ bars }), fileName: 'reeds.mei' }, {}, CLOCK);
    if (!planned.ok) throw new Error(JSON.stringify(planned.problem));
    const { score } = planned.value;
    for (const key of ['a', 'b', 'c']) known.keep(key, score);
    expect(['a', 'b', 'c'].map((key) => known.find(key))).toEqual([undefined, score, score]);
  });

  it('is told by all of its bytes and by what of it is read', () => {
    const bytes = new Uint8Array([1, 2, 3]);
    const keys = [
      scoreKey(bytes, ['a', undefined]),
      scoreKey(bytes, ['a', 'P1']),
      scoreKey(new Uint8Array([1, 2, 4]), ['a', undefined]),
    ];
    expect(new Set(keys).size).toBe(3);
  });
});
