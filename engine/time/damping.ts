import type { Rational } from '../music/rational.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';

/** The clock time at which a sign stills a string after it is plucked; infinite where none does. */
export type DampedAt = (note: Note, pluckedSeconds: number) => number;

/** Follows the signs to damp: of one staff, or of the whole harp. */
export const findDamping = (
  { damps }: Pick<Score, 'damps'>,
  secondsAt: (at: Rational) => number,
): DampedAt => {
  const signs = damps
    .map(({ staff, at }) => ({ staff, seconds: secondsAt(at) }))
    .sort((a, b) => a.seconds - b.seconds);
  return (note, plucked) =>
    signs.find(({ staff, seconds }) => seconds > plucked && (staff === null || staff === note.staff))
      ?.seconds ?? Number.POSITIVE_INFINITY;
};
