import { compare, type LeverMove, type Move } from '../../engine/index.ts';

/** Ids of the first notes that need what moves at one moment; null where one of them sounds there, or is met after a jump alone. */
export const notesInNeedLater = (
  moves: readonly Pick<Move | LeverMove, 'at' | 'window'>[],
): readonly string[] | null => {
  const needs = moves.map(({ at, window }) =>
    window.before === null || compare(window.before.onset, at) <= 0 ? null : window.before.note,
  );
  return needs.every((note) => note !== null) ? needs : null;
};
