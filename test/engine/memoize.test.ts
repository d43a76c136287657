import { expect, test } from 'vitest';
import { perObject } from '../../engine/memoize.ts';

const countCalls = () => {
  let calls = 0;
  const answer = perObject((notes: { readonly names: readonly string[] }) => {
    calls += 1;
    return notes.names.length;
  });
  return { answer, calls: () => calls };
};

test('what is worked out of an object is worked out once, a frozen one included', () => {
  for (const notes of [{ names: ['C4', 'E4'] }, Object.freeze({ names: ['C4', 'E4'] })]) {
    const { answer, calls } = countCalls();
    expect([answer(notes), answer(notes), calls()]).toEqual([2, 2, 1]);
  }
});

test('a copy does not take the answer along, and nothing is seen of it', () => {
  const { answer, calls } = countCalls();
  const notes = { names: ['C4', 'E4'] };
  answer(notes);
  expect(notes).toEqual({ names: ['C4', 'E4'] });
  expect(answer({ ...notes, names: ['G4'] })).toBe(1);
  expect(structuredClone(notes)).toEqual(notes);
  expect(calls()).toBe(2);
});

test('two questions about one object have answers of their own', () => {
  const notes = { names: ['C4', 'E4'] };
  const [first, count] = [perObject(({ names }: typeof notes) => names[0]), countCalls()];
  expect([first(notes), count.answer(notes), first(notes)]).toEqual(['C4', 2, 'C4']);
});
