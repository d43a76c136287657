import { expect, it } from 'vitest';
import { NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { applyAct, beginHistory } from '../../../server/page/client/decisions/history/decision-history.ts';
import { keepSteps, recallSteps } from '../../../server/page/client/memory/kept-steps.ts';
import { keepHistory, recallHistory } from '../../../server/page/client/memory/session-history.ts';

const startMemory = () => {
  const held = new Map<string, string>();
  return {
    getItem: (name: string) => held.get(name) ?? null,
    setItem: (name: string, value: string) => void held.set(name, value),
  };
};

const history = applyAct(beginHistory(NO_DECISIONS), {
  kind: 'do',
  name: 'something',
  decisions: NO_DECISIONS,
});

it('what was done to a part is known until its file is chosen anew, for each part by itself', () => {
  const bytes = new Uint8Array([1, 2]);
  keepHistory({ bytes, part: 'P2' }, history);
  expect(recallHistory({ bytes, part: 'P2' })).toBe(history);
  expect(recallHistory({ bytes, part: null })).toBeNull();
  expect(recallHistory({ bytes: new Uint8Array([1, 2]), part: 'P2' })).toBeNull();
});

it('what was done to a piece, and what was taken back, is known again when the window is reloaded', () => {
  const memory = startMemory();
  const tempo = { from: { barIndex: 0, beat: '1' }, until: null, quartersPerMinute: 40 };
  const slowed = applyAct(history, {
    kind: 'do',
    name: 'slower',
    decisions: { ...NO_DECISIONS, tempos: [tempo] },
  });
  const undone = applyAct(slowed, { kind: 'undo' });
  keepSteps(memory, 'a piece', undone);
  const known = recallSteps(memory, 'a piece')!;
  expect(known.past).toEqual(undone.past);
  expect(applyAct(known, { kind: 'redo' }).present).toEqual(slowed.present);
  expect(recallSteps(memory, 'another')).toBeNull();
});

it('steps that cannot be read lead nowhere', () => {
  const memory = startMemory();
  keepSteps(memory, 'a piece', history);
  const spoilt = memory.getItem('tringle steps')!.replace('"something"', '7');
  memory.setItem('tringle steps', spoilt);
  expect(recallSteps(memory, 'a piece')!.past).toEqual([]);
});
