import { bisector } from 'd3-array';
import type { Letter } from '../music/pitch.ts';
import { compare, type Rational } from '../music/rational.ts';
import type { Need } from './needs.ts';

/** The needs of one letter as listed, and how long any of them so far is held. */
interface LetterNeeds {
  readonly needs: Need[];
  readonly heldSoFar: Rational[];
}

/**
 * Finds rivals: the first need listed that asks a need's pedal for another position at the same time.
 *
 * Needs are listed nearly in order of onset, so that the search starts where the first of them lasts long enough.
 */
export const createRivalSearch = (needs: readonly Need[]): ((need: Need) => Need | undefined) => {
  const byLetter = new Map<Letter, LetterNeeds>();
  for (const need of needs) {
    const known = byLetter.get(need.letter) ?? { needs: [], heldSoFar: [] };
    if (known.needs.length === 0) byLetter.set(need.letter, known);
    const held = known.heldSoFar.at(-1);
    known.needs.push(need);
    known.heldSoFar.push(held !== undefined && compare(held, need.heldUntil) > 0 ? held : need.heldUntil);
  }
  return (need) => {
    const listed = byLetter.get(need.letter);
    if (listed === undefined) return undefined;
    for (let i = firstHeldUntil(listed.heldSoFar, need.onset); i < listed.needs.length; i += 1) {
      const other = listed.needs[i]!;
      const together = compare(other.onset, need.heldUntil) <= 0 && compare(other.heldUntil, need.onset) >= 0;
      if (together && other.position !== need.position) return other;
    }
    return undefined;
  };
};

const firstHeldUntil: (heldSoFar: readonly Rational[], onset: Rational) => number = bisector(compare).left;
