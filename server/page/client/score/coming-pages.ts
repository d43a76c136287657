import type { PagesEnd, ToldPage } from '../service/told-pages.ts';
import { type ReadPage, readPage } from './read-page.ts';

/** Pages while they come: new ones, and behind them those of before. */
export interface PagesSoFar {
  readonly pages: readonly ReadPage[];
  /** Some are those of before. */
  readonly areMixed: boolean;
  /** How many new ones there are, and how many there will be, as far as that is known. */
  readonly ready: number;
  readonly of: number;
  /** What is told with the end; null until then. */
  readonly letters: string | null;
}

export interface ComingPages {
  readonly take: (page: ToldPage) => void;
  readonly end: (told: PagesEnd) => void;
  /** Nothing more is shown. */
  readonly giveUp: () => void;
}

/** All views look at the pages anew when some have come: not for each of a long part. */
const SHOWN_EVERY_MS = 250;

/**
 * Gathers pages as they come, the first shown at once, the others some together.
 *
 * @param before the pages that were shown until now: each stays until its new one is there, and as it is where that is the same
 */
export const comingPages = (before: readonly ReadPage[], show: (pages: PagesSoFar) => void): ComingPages => {
  const fresh: ReadPage[] = [];
  let of = 0;
  let due: ReturnType<typeof setTimeout> | null = null;
  const tell = (letters: string | null): void => {
    due = null;
    const old = letters === null ? before.slice(fresh.length) : [];
    show({ pages: [...fresh, ...old], areMixed: old.length > 0, ready: fresh.length, of, letters });
  };
  const stop = (): void => {
    if (due !== null) clearTimeout(due);
    due = null;
  };
  return {
    take: ({ number, svg, ...told }) => {
      const isFirst = fresh.length === 0;
      const same = before[number - 1];
      fresh[number - 1] = same?.svg === svg ? same : readPage(svg);
      of = Math.max(told.of, fresh.length);
      if (isFirst) tell(null);
      else due ??= setTimeout(() => tell(null), SHOWN_EVERY_MS);
    },
    end: ({ letters, pageCount }) => {
      stop();
      fresh.length = pageCount;
      of = pageCount;
      tell(letters);
    },
    giveUp: stop,
  };
};
