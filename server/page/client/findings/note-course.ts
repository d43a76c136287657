import { type Letter, type Move, type Position, toNumber } from '../../../../engine/index.ts';
import type { NotePlace, PlannedPart } from '../planner/planned-part.ts';

/** How a note comes by its sound: the string, and its pedal before, at and after the note. */
export interface NoteCourse {
  readonly letter: Letter;
  readonly position: Position;
  /** The string as the pitch that it gives, such as `A♭4`; null where it is none of the note's usual names. */
  readonly string: string | null;
  /** The move that set the pedal, as an index; null where it is set before the piece; undefined where nothing sets it. */
  readonly setBy: number | null | undefined;
  /** The next move of the pedal, as an index; null where it moves no more. */
  readonly movesOn: number | null;
  /** The moves that wait for this note: indices. */
  readonly delays: readonly number[];
}

const nameOn = ({ name, others }: NotePlace, letter: Letter): string | null =>
  [name, ...others].find((each) => each.startsWith(letter)) ?? null;

/**
 * Of a note that is tied to one before, that of the note that is plucked.
 *
 * @returns null where the note asks for no pedal: it is left out, or a string without discs gives it
 */
export const noteCourse = (part: PlannedPart, note: string): NoteCourse | null => {
  const place = part.notes.get(note);
  const need = part.needs.find((each) => each.note === place?.head);
  if (need === undefined || place === undefined) return null;
  const { letter, position, onsetQuarters } = need;
  const { moves, initial } = part.plan;
  const isBefore = (move: Move): boolean => move.letter === letter && toNumber(move.at) <= onsetQuarters;
  const last = moves.findLastIndex(isBefore);
  const stands = last === -1 ? initial[letter] : moves[last]!.to;
  const next = moves.findIndex((move) => move.letter === letter && !isBefore(move));
  return {
    letter,
    position,
    string: nameOn(place, letter),
    setBy: stands !== position ? undefined : last === -1 ? null : last,
    movesOn: next === -1 ? null : next,
    delays: moves.flatMap(({ window }, i) => (window.after?.note === place.head ? [i] : [])),
  };
};
