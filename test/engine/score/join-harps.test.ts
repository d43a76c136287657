import { describe, expect, it } from 'vitest';
import { joinHarps } from '../../../engine/score/join-harps.ts';
import { openScore } from '../../../engine/score/open.ts';
import { FERRY_BELLS } from '../../two-harps.ts';

const read = (part: string) => {
  const opened = openScore(FERRY_BELLS, { part });
  if (!opened.ok) throw new Error(opened.problem.code);
  return opened.value;
};

describe('two harps set under each other', () => {
  const parts = [read('Harp I'), read('Harp II')];
  const { score, harps } = joinHarps(parts);

  it('have all their staves, the first harp at the top', () => {
    expect(score.harp.staves).toBe(4);
    expect(harps.map(({ name }) => name)).toEqual(['Harp I', 'Harp II']);
    const stavesOf = (part: number) => new Set(parts[part]!.notes.map(({ id }) => staffOf(id)));
    const staffOf = (id: string) => score.notes.find((note) => note.id === id)!.staff;
    expect([...stavesOf(0)].sort()).toEqual([1, 2]);
    expect([...stavesOf(1)].sort()).toEqual([3, 4]);
  });

  it('share no note and no voice', () => {
    const ids = score.notes.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    const voices = (staves: readonly number[]) =>
      new Set(score.notes.filter(({ staff }) => staves.includes(staff)).map(({ voice }) => voice));
    expect([...voices([1, 2])].filter((voice) => voices([3, 4]).has(voice))).toEqual([]);
  });
});
