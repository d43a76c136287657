import type { PagesEnd, ToldPage } from '../../service/told-pages.ts';
import { type ReadPage, readPage } from './read-page.ts';

/** Pages while they come: new ones, and those of before where the new ones are not there yet. */
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

/** Each page once, up to the first that is in neither. @param fresh by their numbers, from 1 */
const joinPages = (fresh: ReadonlyMap<number, ReadPage>, old: readonly ReadPage[]): ReadPage[] => {
  const pages: ReadPage[] = [];
  for (;;) {
    const next = fresh.get(pages.length + 1) ?? old[pages.length];
    if (next === undefined) return pages;
    pages.push(next);
  }
};

/**
 * Gathers pages as they come, the first shown at once, the others some together.
 *
 * @param before the pages that were shown until now: each stays until its new one is there, and as it is where that is the same
 */
export const comingPages = (before: readonly ReadPage[], show: (pages: PagesSoFar) => void): ComingPages => {
  const fresh = new Map<number, ReadPage>();
  let of = 0;
  let due: ReturnType<typeof setTimeout> | null = null;
  const tell = (letters: string | null): void => {
    due = null;
    const old = letters === null ? before : [];
    const pages = joinPages(fresh, old);
    const areMixed = old.some((_, i) => !fresh.has(i + 1));
    show({ pages, areMixed, ready: fresh.size, of, letters });
  };
  const stop = (): void => {
    if (due !== null) clearTimeout(due);
    due = null;
  };
  return {
    take: ({ number, svg, ...told }) => {
      const isFirst = fresh.size === 0;
      const same = before[number - 1];
      fresh.set(number, same?.svg === svg ? same : readPage(svg));
      of = Math.max(told.of, ...fresh.keys());
      if (isFirst) tell(null);
      else due ??= setTimeout(() => tell(null), SHOWN_EVERY_MS);
    },
    end: ({ letters, pageCount }) => {
      stop();
      for (const number of fresh.keys()) if (number > pageCount) fresh.delete(number);
      of = pageCount;
      tell(letters);
    },
    giveUp: stop,
  };
};
