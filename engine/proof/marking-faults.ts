import { isSetting } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import { equals, type Rational, rationalKey } from '../music/rational.ts';
import type { Score } from '../score/model/score.ts';
import type { MarkingPlayback } from './marking-playback.ts';

/** Two markings (indices) at one moment that state one pedal differently. */
export interface Contradiction {
  readonly letter: Letter;
  readonly first: number;
  readonly second: number;
}

export const contradictionKey = (letter: Letter, at: Rational): string =>
  `two markings of ${letter} at ${rationalKey(at)}`;

/** Among grace notes two markings of one pedal may both be meant, one after the other. */
export const listContradictions = (
  score: Score,
  letters: readonly Letter[] = LETTERS,
): readonly Contradiction[] => {
  const last = new Map<string, number>();
  return score.markings.flatMap((marking, second) =>
    letters.flatMap((letter) => {
      const stated = marking.positions[letter];
      if (stated === undefined) return [];
      const key = contradictionKey(letter, marking.at);
      const first = last.get(key);
      last.set(key, second);
      if (first === undefined || score.markings[first]!.positions[letter] === stated) return [];
      return hasGraceAt(score, marking.at) ? [] : [{ letter, first, second }];
    }),
  );
};

const hasGraceAt = (score: Score, at: Rational): boolean =>
  score.notes.some((note) => note.grace !== null && equals(note.onset, at));

/**
 * Something that a marking states for nothing: `stands`, the pedal is there already; `unasked`, no note wants it; `twice`,
 * another marking in words says the same at its place.
 */
export interface RedundantMarking {
  readonly marking: number;
  readonly letter: Letter;
  readonly why: 'stands' | 'unasked' | 'twice';
}

/** Changes that do nothing on any pass. A full setting may well repeat what stands: that is a help to the player. */
export const listRedundantMarkings = (
  score: Score,
  performance: MarkingPlayback,
  letters: readonly Letter[] = LETTERS,
): readonly RedundantMarking[] => {
  const blamed = new Set(performance.failures.map((failure) => `${failure.marking} ${failure.letter}`));
  const played = new Set(score.playOrder);
  return score.markings.flatMap((marking, index) => {
    const stated = LETTERS.filter((letter) => marking.positions[letter] !== undefined);
    if (stated.length === LETTERS.length || !played.has(marking.bar)) return [];
    return stated.flatMap((letter): readonly RedundantMarking[] => {
      if (!letters.includes(letter)) return [];
      const { changed, needed } = performance.effectOf(index, letter);
      if (needed > 0 || blamed.has(`${index} ${letter}`)) return [];
      if (isSaidBefore(score, index, letter)) return [{ marking: index, letter, why: 'twice' }];
      if (isInSettingHere(score, index, letter)) return [];
      return [{ marking: index, letter, why: changed === 0 ? 'stands' : 'unasked' }];
    });
  });
};

const isSaidBefore = (score: Score, index: number, letter: Letter): boolean =>
  saidHere(score, index, letter).some(
    (other) => other < index && !isSetting(score.markings[other]!.positions),
  );

/** A change may stand beside the full setting that it leads to. */
const isInSettingHere = (score: Score, index: number, letter: Letter): boolean =>
  saidHere(score, index, letter).some((other) => isSetting(score.markings[other]!.positions));

/** Other markings that say the same of a pedal at the same place. */
const saidHere = ({ markings }: Score, index: number, letter: Letter): readonly number[] => {
  const { at, positions } = markings[index]!;
  return markings.flatMap((other, i) =>
    i !== index && equals(other.at, at) && other.positions[letter] === positions[letter] ? [i] : [],
  );
};
