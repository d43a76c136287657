import { LETTERS, type Letter } from '../../music/pitch.ts';
import { compare, rationalKey } from '../../music/rational.ts';
import type { SourceMarking, UnreadWords } from '../model/markings.ts';
import type { Naming } from './pedal-names.ts';
import { readBareNames } from './pedal-words.ts';

/** Pedal markings of a part, and words that seem to be some and are not understood; both in order. */
export interface MarkingsRead {
  readonly markings: readonly SourceMarking[];
  readonly unreadWords: readonly UnreadWords[];
}

/**
 * Reads a setting that is spelled out over several texts at one moment: bare names, which alone say nothing, are
 * naturals where they and the other names there are the seven pedals.
 */
export const readSplitSettings = (
  { markings, unreadWords }: MarkingsRead,
  usual: Naming | null,
): MarkingsRead => {
  const read = unreadWords.map((words) => {
    const names = readBareNames(words.text, usual);
    return names === null
      ? null
      : Object.fromEntries(names.map(({ letter, position }) => [letter, position]));
  });
  const lettersAt = new Map<string, Letter[]>();
  const note = ({ at }: Pick<UnreadWords, 'at'>, positions: SourceMarking['positions']): void => {
    const key = rationalKey(at);
    lettersAt.set(key, [...(lettersAt.get(key) ?? []), ...(Object.keys(positions) as Letter[])]);
  };
  for (const marking of markings) note(marking, marking.positions);
  for (const [i, words] of unreadWords.entries()) note(words, read[i] ?? {});
  const isWhole = ({ at }: UnreadWords): boolean => {
    const letters = lettersAt.get(rationalKey(at))!;
    return letters.length === LETTERS.length && new Set(letters).size === LETTERS.length;
  };
  const joined = unreadWords.flatMap((words, i): SourceMarking[] =>
    read[i] != null && isWhole(words) ? [{ ...words, form: 'words', positions: read[i], ahead: false }] : [],
  );
  if (joined.length === 0) return { markings, unreadWords };
  const spans = new Set(joined.map(({ span }) => span.start));
  return {
    markings: [...markings, ...joined].sort((a, b) => compare(a.at, b.at)),
    unreadWords: unreadWords.filter(({ span }) => !spans.has(span.start)),
  };
};
