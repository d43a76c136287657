import { group } from '../../group.ts';
import { nameString } from '../../harp/scordatura.ts';
import { midiOf, type Pitch } from '../../music/pitch.ts';
import { compare, type Rational, rationalKey } from '../../music/rational.ts';
import { type Need, otherPedalStrings } from '../../sounding/needs.ts';
import type { PlacedNeed } from '../../sounding/placed-needs.ts';
import { RESTRIKE_SECONDS } from '../../sounding/string-times.ts';
import type { PedalProblem, PreparedScore } from '../pedal-problem.ts';

/** A need at one moment with the strings it may be served on. */
export interface NoteToSpell extends PlacedNeed {
  readonly own: Pitch;
  readonly others: readonly OtherString[];
}

/** A string that a note may go to, once the needs that it is asked of have left it. */
export interface OtherString {
  readonly string: Pitch;
  readonly askedOf: readonly Need[];
}

export const ownString = ({ letter, octave, position }: Need): Pitch => ({ letter, octave, alter: position });

/** All needs in order of moment, with the strings that free spelling may choose from. */
export const notesToSpell = (prepared: PreparedScore, written: PedalProblem): NoteToSpell[] => {
  const { options } = prepared;
  const usersOf = findStringUsers(written.listed.needs, prepared.secondsAt);
  const mayMove = (need: Need): boolean =>
    need.kind === 'plucked' &&
    compare(need.heldUntil, need.onset) === 0 &&
    !options.respelled.has(need.note.id);
  const elsewhere = (need: Need): readonly Pitch[] =>
    mayMove(need) ? otherPedalStrings(ownString(need), options.profile, options.scordatura) : [];
  /** Another note of the pitch keeps its string; one that has nowhere to go, too. */
  const keepsString = (user: Need, pitch: Pitch): boolean =>
    midiOf(ownString(user)) === midiOf(pitch) || elsewhere(user).length === 0;
  const othersOf = (need: Need): OtherString[] =>
    elsewhere(need).flatMap((string) => {
      const users = usersOf(string, need.onset);
      return users.some((user) => keepsString(user, string)) ? [] : [{ string, askedOf: users }];
    });
  return [...written.needs.values()]
    .flatMap((placed) =>
      placed.map(({ need, moment }) => ({ need, moment, own: ownString(need), others: othersOf(need) })),
    )
    .sort((a, b) => a.moment - b.moment);
};

/** Whether the string that a need plucks is plucked at about a time, or sounds then. */
export const usesString = (need: Need, at: Rational, secondsAt: (at: Rational) => number): boolean =>
  Math.abs(secondsAt(need.onset) - secondsAt(at)) < RESTRIKE_SECONDS ||
  (compare(need.onset, at) < 0 && compare(need.release, at) > 0);

/** The needs that use a string at a time. */
const findStringUsers = (
  needs: readonly Need[],
  secondsAt: (at: Rational) => number,
): ((pitch: Pitch, at: Rational) => readonly Need[]) => {
  const byString = group(needs, nameString);
  const known = new Map<string, readonly Need[]>();
  return (pitch, at) => {
    const key = nameString(pitch);
    const memo = `${key};${rationalKey(at)}`;
    const answer =
      known.get(memo) ?? (byString.get(key) ?? []).filter((need) => usesString(need, at, secondsAt));
    known.set(memo, answer);
    return answer;
  };
};
