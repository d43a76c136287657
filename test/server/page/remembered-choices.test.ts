import { expect, it } from 'vitest';
import { recallChoices, rememberChoices } from '../../../server/page/client/memory/remembered-choices.ts';
import { listedFor } from '../../../server/page/client/options/choices.ts';
import { ofPiece, pieceOptionsFor } from '../../../server/page/client/options/piece-choices.ts';

const startMemory = () => {
  const held = new Map<string, string>();
  return {
    getItem: (name: string) => held.get(name) ?? null,
    setItem: (name: string, value: string) => void held.set(name, value),
  };
};

it('the level and the tuning are known again for their piece alone, the paper for every piece', () => {
  const memory = startMemory();
  const chosen = { level: 'beginner', paper: 'a3' };
  const { level, paper } = chosen;
  rememberChoices(memory, 'pedal', 'a piece', { level, paper });
  expect(recallChoices(memory, 'pedal', 'a piece')).toEqual({ level, paper });
  expect(recallChoices(memory, 'pedal', 'another')).toEqual({ paper });
  expect(recallChoices(memory, 'lever', 'a piece')).toEqual({});
  rememberChoices(memory, 'lever', 'a piece', { tuning: 'E♭ major' });
  expect(recallChoices(memory, 'lever', 'another')).toEqual({});
  expect(recallChoices(memory, 'lever', 'a piece')).toEqual({ tuning: 'E♭ major' });
});

it('what was chosen for a piece and reset is not remembered', () => {
  const memory = startMemory();
  rememberChoices(memory, 'pedal', 'a piece', { level: 'beginner' });
  rememberChoices(memory, 'pedal', 'a piece', {});
  expect(recallChoices(memory, 'pedal', 'a piece')).toEqual({});
});

it('the page says by its name of each option of a harp that holds for one piece', () => {
  for (const harp of ['pedal', 'lever'] as const) {
    const told = pieceOptionsFor(harp).map(({ option }) => option.label);
    expect(told).toContain('Level of the player');
    expect(told).not.toContain(null);
    for (const { name, option } of listedFor(harp)) {
      if (option.label === null || name === 'blanks') continue;
      expect(told.includes(option.label)).toBe(Object.keys(ofPiece({ [name]: 'x' })).length === 1);
    }
  }
});
