import { type Move, toNumber } from '../../../../engine/index.ts';
import type { PlannedPart } from './planned-part.ts';

/**
 * The notes that ask for a move: those that need the pedal in its new position, from the first after the move until the
 * pedal moves again.
 *
 * @returns note ids in order of onset, each once; empty where the need comes only after a jump
 */
export const askingNotes = (part: PlannedPart, move: Move): readonly string[] => {
  const first = move.window.before;
  if (first === null) return [];
  const from = toNumber(first.onset);
  const { moves } = part.plan;
  const until = moves
    .filter(({ letter, at }) => letter === move.letter && toNumber(at) > toNumber(move.at))
    .map(({ at }) => toNumber(at))
    .reduce((earliest, at) => Math.min(earliest, at), Number.POSITIVE_INFINITY);
  const asking = part.needs.filter(
    ({ letter, position, onsetQuarters }) =>
      letter === move.letter && position === move.to && onsetQuarters >= from && onsetQuarters < until,
  );
  return [...new Set([first.note, ...asking.map(({ note }) => note)])];
};
