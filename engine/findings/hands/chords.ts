import { group } from '../../group.ts';
import type { Side } from '../../harp/side.ts';
import { type Pitch, stepOf } from '../../music/pitch.ts';
import { rationalKey } from '../../music/rational.ts';
import { mapNonEmpty, type NonEmpty } from '../../non-empty.ts';
import type { Note } from '../../score/model/note.ts';
import { isArpeggiated } from '../../score/plucked.ts';
import type { PlayingHand } from '../../sounding/hands.ts';
import { type Help, help } from '../help/help.ts';
import { FINGERS, HARMONICS_IN_HAND, TENTH_STEPS } from './hand-limits.ts';

/** A note that is plucked, and the string that is plucked for it, with its pitch. */
export interface Pluck extends PlayingHand {
  readonly note: Note;
  readonly string: Pitch;
}

export const HANDS: readonly Side[] = ['right', 'left'];

export const fromBelow = (a: Pluck, b: Pluck): number => stepOf(a.string) - stepOf(b.string);

/** Strings from below with so many of the lowest for the left hand, and the others for the right. */
const divideAt = (strings: readonly Pluck[], lower: number): readonly Pluck[] =>
  strings.map((pluck, i) => ({ ...pluck, hand: i < lower ? 'left' : 'right' }));

/**
 * The chord as two hands can play it: where a hand has more than it can take and only staves say which hand plays, the
 * lowest strings go to the left hand and the others to the right, so that both can. The chord itself where none of that helps.
 */
export const divideChord = (chord: readonly Pluck[]): readonly Pluck[] => {
  if (fitsHands(chord)) return chord;
  const open = chord.filter(({ guessed }) => guessed).sort(fromBelow);
  const told = chord.filter(({ guessed }) => !guessed);
  for (let lower = 0; lower <= open.length; lower += 1) {
    const divided = [...told, ...divideAt(open, lower)];
    if (fitsHands(divided)) return divided;
  }
  return chord;
};

/**
 * What the other hand could take of a chord against what words, beams or stems say, so that both hands can play it: the
 * fewest notes. None where no way to divide the strings at one place serves, as for all chords of
 * which only the staves say which hand plays.
 */
export const otherHandTakes = (chord: readonly Pluck[], name: Side): readonly Help[] => {
  const sorted = [...chord].sort(fromBelow);
  const ways = Array.from({ length: sorted.length + 1 }, (_, lower) => lower).flatMap((lower) => {
    const [below, above] = [sorted[lower - 1], sorted[lower]];
    // Two voices may share a note: that is one string.
    if (below && above && stepOf(below.string) === stepOf(above.string)) return [];
    const divided = divideAt(sorted, lower);
    const taken = sorted.filter(({ hand }, i) => hand !== divided[i]!.hand);
    return fitsHands(divided) && taken.length > 0 && taken.every(({ hand }) => hand === name) ? [taken] : [];
  });
  const [fewest] = ways.sort((a, b) => a.length - b.length);
  if (fewest === undefined) return [];
  // Two voices may share a string.
  const pitches = [...new Map(fewest.map(({ string }) => [stepOf(string), string])).values()];
  return [help('other-hand-takes', { hand: name === 'left' ? 'right' : 'left', pitches })];
};

/**
 * Whether each hand can take its strings at once: four of them at most, within a tenth unless the chord is broken, and
 * no more harmonics than it can play.
 */
const fitsHands = (chord: readonly Pluck[]): boolean =>
  HANDS.every((name) => {
    const hand = chord.filter((pluck) => pluck.hand === name);
    return (
      countStrings(hand) <= FINGERS &&
      (stretchOf(hand) <= TENTH_STEPS || isBroken(hand)) &&
      harmonicsOf(hand).length <= HARMONICS_IN_HAND[name]
    );
  });

export const harmonicsOf = (hand: readonly Pluck[]): readonly Pluck[] =>
  hand.filter(({ note }) => note.harmonic !== null);

/** Two voices may share a note: that is one string, and one finger. */
export const countStrings = (hand: readonly Pluck[]): number =>
  new Set(hand.map(({ string }) => stepOf(string))).size;

/** From the lowest string to the highest, in steps. */
export const stretchOf = (hand: readonly Pluck[]): number => {
  const steps = hand.map(({ string }) => stepOf(string));
  return hand.length === 0 ? 0 : Math.max(...steps) - Math.min(...steps);
};

export const isGuessed = (hand: readonly Pluck[]): boolean => hand.some(({ guessed }) => guessed);

export const chordsOf = (plucks: readonly Pluck[]): Pluck[][] => {
  const atOnset = plucks.filter(({ note }) => note.grace === null);
  return [...group(atOnset, ({ note }) => rationalKey(note.onset)).values()];
};

export const notesOf = (plucks: NonEmpty<Pluck>): NonEmpty<Note> => mapNonEmpty(plucks, ({ note }) => note);

/** Whether some of its notes are arpeggiated. */
export const isBroken = (hand: readonly Pluck[]): boolean => hand.some(({ note }) => isArpeggiated(note));
