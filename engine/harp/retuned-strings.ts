import { LETTERS_FROM_C, type Letter } from '../music/pitch.ts';
import type { LeverHarpProfile } from './lever-profile.ts';
import { listStrings } from './levered-strings.ts';
import { type OpenTuning, openAlter } from './open-tuning.ts';
import type { HarpString } from './profile.ts';

/** What is to be retuned of a lever harp: all strings of a letter, or single ones. */
export interface RetunedLetter {
  readonly letter: Letter;
  /** The strings, the lowest first; null for all of this letter. */
  readonly strings: readonly HarpString[] | null;
  /** Semitones above the natural, as they were tuned and as they are to be tuned. */
  readonly from: number;
  readonly to: number;
}

/** Where two tunings of a harp differ, by letter from C. */
export const listRetunedStrings = (
  before: OpenTuning,
  after: OpenTuning,
  profile: LeverHarpProfile,
): readonly RetunedLetter[] => {
  const strings = listStrings(profile).map((string) => ({
    string,
    from: openAlter(before, string),
    to: openAlter(after, string),
  }));
  return LETTERS_FROM_C.flatMap((letter) => {
    const own = strings.filter(({ string }) => string.letter === letter);
    const changed = own.filter(({ from, to }) => from !== to);
    const ways = [...new Set(changed.map(({ from, to }) => `${from} ${to}`))];
    return ways.map((way): RetunedLetter => {
      const alike = changed.filter(({ from, to }) => `${from} ${to}` === way);
      const { from, to } = alike[0]!;
      return {
        letter,
        strings: alike.length === own.length ? null : alike.map(({ string }) => string),
        from,
        to,
      };
    });
  });
};
