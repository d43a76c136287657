import {
  type HarpString,
  LETTERS_FROM_C,
  type Letter,
  type LeverHarpProfile,
  listStrings,
  type OpenTuning,
  openAlter,
} from '../../engine/index.ts';

/** What is to be retuned of a lever harp before a piece: all strings of a letter, or single ones. */
export interface RetunedLetter {
  readonly letter: Letter;
  /** The strings, the lowest first; null for all of this letter. */
  readonly strings: readonly HarpString[] | null;
  /** Semitones above the natural, as the harp is tuned by custom and for the piece. */
  readonly from: number;
  readonly to: number;
}

/** Where a tuning differs from the custom of the harp, by letter from C. */
export const listRetunedStrings = (
  tuning: OpenTuning,
  profile: LeverHarpProfile,
): readonly RetunedLetter[] => {
  const strings = listStrings(profile).map((string) => ({
    string,
    from: openAlter(profile.tuning, string),
    to: openAlter(tuning, string),
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
