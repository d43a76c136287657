import type { LeverLook } from '../look.ts';
import { NAMES } from './names.ts';

/**
 * Changes as small notes just before their moment. One that has nothing to stand before, such as one in a bar of rest,
 * is told by name, with the others of its moment, and so is one that is made at one time of playing alone: no note has
 * room to say so.
 */
export const NOTES: LeverLook = {
  words: { label: 'as small notes', meaning: 'small notes on the lines of their strings' },
  kind: 'lever-notes',
  mark: (moves, id, hostOf) => {
    if (moves.some(({ restores, onlyAt }) => restores || onlyAt !== null))
      return NAMES.mark(moves, id, hostOf);
    const changes = moves.flatMap((move, i) => {
      const host = hostOf(move);
      return host === null ? [] : [{ string: move.string, alter: move.alter, id: `${id}-${i + 1}`, host }];
    });
    return changes.length === moves.length ? { kind: 'lever-notes', changes } : NAMES.mark(moves, id, hostOf);
  },
};
