import { group } from 'd3-array';
import type { Pitch } from '../../music/pitch.ts';
import { compare, type Rational, rationalKey } from '../../music/rational.ts';
import { type ChosenSpelling, type Need, otherPedalStrings } from '../../sounding/needs.ts';
import { RESTRIKE_SECONDS } from '../../sounding/string-times.ts';
import type { FeetProblem, PreparedScore } from '../prepared.ts';
import { chooseSpelling, type SpellingChoice } from './spelling.ts';

/**
 * The cheapest joint choice of spelling and setting for the whole part, in printed order.
 *
 * A note that is plucked once may go to another string of the same pitch; trills, tremolos, glissandi, implied notes,
 * those whose string the user chose, and those on strings tuned otherwise stay. A string that sounds, or that another note
 * plucks at the same time or too shortly before or after, is never taken: notes on two strings of one pitch, by turns, are
 * written so to be repeated fast.
 *
 * @returns other strings by note id; notes that stay as written are not in it
 */
export const spellFreely = (prepared: PreparedScore, written: FeetProblem): ChosenSpelling => {
  const { moments, options } = prepared;
  const taken = stringsInUse(written.listed.needs, prepared.secondsAt);
  const spelled: { readonly need: Need; readonly choice: SpellingChoice }[] = [];
  for (const placed of written.needs.values()) {
    for (const { need, moment } of placed) {
      const own: Pitch = { letter: need.letter, octave: need.octave, alter: need.position };
      const mayMove =
        need.kind === 'plucked' &&
        compare(need.heldUntil, need.onset) === 0 &&
        !options.respelled.has(need.note.id);
      const others = mayMove
        ? otherPedalStrings(own, options.profile, options.scordatura).filter(
            (pitch) => !taken(pitch, need.onset),
          )
        : [];
      spelled.push({ need, choice: { moment, strings: [own, ...others] } });
    }
  }
  spelled.sort((a, b) => a.choice.moment - b.choice.moment);
  const chosen = chooseSpelling(
    spelled.map(({ choice }) => choice),
    moments.all,
    options.weights,
  );
  return new Map(
    spelled.flatMap(({ need, choice }, i): [string, Pitch][] =>
      chosen[i]! > 0 ? [[need.note.id, choice.strings[chosen[i]!]!]] : [],
    ),
  );
};

/** Whether a string is plucked at about a time, or sounds then from an earlier note. */
const stringsInUse = (
  needs: readonly Need[],
  secondsAt: (at: Rational) => number,
): ((pitch: Pitch, at: Rational) => boolean) => {
  const byString = group(needs, ({ letter, octave }) => `${letter}${octave}`);
  const known = new Map<string, boolean>();
  return (pitch, at) => {
    const key = `${pitch.letter}${pitch.octave}`;
    const memo = `${key};${rationalKey(at)}`;
    const answer =
      known.get(memo) ??
      (byString.get(key) ?? []).some(
        (need) =>
          Math.abs(secondsAt(need.onset) - secondsAt(at)) < RESTRIKE_SECONDS ||
          (compare(need.onset, at) < 0 && compare(need.release, at) > 0),
      );
    known.set(memo, answer);
    return answer;
  };
};
