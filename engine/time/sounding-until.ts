import { add, compare, type Rational } from '../music/rational.ts';
import type { Note } from '../score/model/note.ts';

/**
 * Whether some note that began before a score time still sounds, or is held on there by a tie; asked in ascending order
 * of time.
 */
export const soundingUntil = (notes: readonly Note[]): ((at: Rational) => boolean) => {
  const tiedOn = new Set(notes.map(({ tiedFrom }) => tiedFrom));
  let next = 0;
  let end: Rational | null = null;
  let tiedEnd: Rational | null = null;
  return (at) => {
    for (; next < notes.length && compare(notes[next]!.onset, at) < 0; next += 1) {
      const { id, role, onset, duration } = notes[next]!;
      if (role === 'cue') continue;
      const release = add(onset, duration);
      end = laterOf(end, release);
      if (tiedOn.has(id)) tiedEnd = laterOf(tiedEnd, release);
    }
    return (end !== null && compare(end, at) > 0) || (tiedEnd !== null && compare(tiedEnd, at) >= 0);
  };
};

const laterOf = (a: Rational | null, b: Rational): Rational => (a === null || compare(b, a) > 0 ? b : a);
