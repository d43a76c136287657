import type { EngravingOptions } from '../../engraving-options.ts';
import { EASE_SECONDS, type PageTurn } from '../../layout/breaks/page-turns.ts';
import { wordsOf } from '../../words/words.ts';

/** The trade's words in every language: volti subito, turn at once (common practice, no source). */
const QUICK = 'V.S.';

/** What stands at the foot of pages (from 1) that are turned: nothing where a turn is neither hurried nor at ease. */
export const turnWords = (
  turns: readonly PageTurn[],
  { language }: Pick<EngravingOptions, 'language'>,
): ReadonlyMap<number, string> => {
  const { timeToTurn } = wordsOf({ language }).legend;
  return new Map(
    turns.flatMap(({ page, free, seconds }): [number, string][] => {
      if (free !== 'both-hands') return [[page, QUICK]];
      return seconds >= EASE_SECONDS ? [[page, timeToTurn]] : [];
    }),
  );
};
