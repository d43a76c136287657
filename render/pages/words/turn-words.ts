import { EASE_SECONDS, type PageTurn } from '../../layout/breaks/page-turns.ts';

/** The trade's words: volti subito, turn at once (common practice, no source). */
const QUICK = 'V.S.';
const AT_EASE = 'time';

/** What stands at the foot of pages (from 1) that are turned: nothing where a turn is neither hurried nor at ease. */
export const turnWords = (turns: readonly PageTurn[]): ReadonlyMap<number, string> =>
  new Map(
    turns.flatMap(({ page, free, seconds }): [number, string][] => {
      if (free !== 'both-hands') return [[page, QUICK]];
      return seconds >= EASE_SECONDS ? [[page, AT_EASE]] : [];
    }),
  );
