import { bisector } from 'd3-array';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { equals } from '../music/rational.ts';
import type { Moments } from '../time/moments.ts';
import { spanOf } from './need-span.ts';
import type { Need } from './needs.ts';

/** A need at one moment; a trill or a glissando needs its pedal at every moment of its span. */
export interface PlacedNeed {
  readonly need: Need;
  readonly moment: number;
}

/** Needs by the letter of their pedal, each in order of moment. */
export type NeedsByLetter = ReadonlyMap<Letter, readonly PlacedNeed[]>;

/** Needs by letter at their moments, in order; a held need stands at every moment of its span. */
export const placeNeeds = (needs: readonly Need[], moments: Moments): NeedsByLetter => {
  const placed = new Map<Letter, PlacedNeed[]>(LETTERS.map((letter) => [letter, []]));
  for (const need of needs) {
    const { first, last } = spanOf(need, moments);
    const pedal = placed.get(need.letter)!;
    for (let moment = first; moment <= last; moment += 1) pedal.push({ need, moment });
  }
  for (const each of placed.values()) each.sort((a, b) => a.moment - b.moment);
  return placed;
};

/** Place in a list of the first need at a moment or later; the length of the list where there is none. */
export const firstNeedFrom: (needs: readonly PlacedNeed[], moment: number) => number = bisector(
  ({ moment }: PlacedNeed) => moment,
).left;

/** The needs of `now`, with the lists of `before` for the letters whose needs are the same. */
export const keepAlikeLists = (before: NeedsByLetter, now: NeedsByLetter): NeedsByLetter =>
  new Map(
    [...now].map(([letter, placed]) => {
      const known = before.get(letter)!;
      const isAlike =
        known.length === placed.length && placed.every((each, i) => isSamePlaced(each, known[i]!));
      return [letter, isAlike ? known : placed];
    }),
  );

const isSamePlaced = ({ need: a, moment }: PlacedNeed, { need: b, moment: other }: PlacedNeed): boolean =>
  moment === other &&
  a.note === b.note &&
  a.startNote === b.startNote &&
  a.octave === b.octave &&
  a.position === b.position &&
  a.kind === b.kind &&
  equals(a.onset, b.onset) &&
  equals(a.heldUntil, b.heldUntil) &&
  equals(a.release, b.release);
