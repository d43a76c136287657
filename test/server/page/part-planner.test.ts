import { expect, it } from 'vitest';
import { NO_DECISIONS } from '../../../engine/decisions/model.ts';
import { planChoicesOf } from '../../../server/page/client/options/choices.ts';
import { createPartPlanner } from '../../../server/page/client/planner/part-planner.ts';
import { note, readHarp, words } from '../../engine/score/musicxml/musicxml-builder.ts';

it('the page plans the player that is chosen, and all of them again', () => {
  const score = readHarp(
    words('a 2') + note('C4', 4),
    words('I') + note('C#4', 4),
    words('II') + note('D#4', 4),
    words('a 2') + note('E4', 4),
  );
  const plan = createPartPlanner(score);
  const moves = (player: string): readonly string[] =>
    plan(NO_DECISIONS, planChoicesOf({ player })).plan.moves.map(({ letter }) => letter);
  const starts = (player: string): number => plan(NO_DECISIONS, planChoicesOf({ player })).plan.initial.D;
  expect(moves('all')).toEqual(['C']);
  expect(moves('1')).toEqual(['C']);
  expect(moves('2')).toEqual([]);
  expect([starts('all'), starts('1'), starts('2')]).toEqual([1, 0, 1]);
  expect(moves('all')).toEqual(['C']);
});
