import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { STRINGS } from '../../../strings/strings.ts';
import type { Order } from '../../service/annotate-request.ts';
import { askForKeyAgain } from '../../service/service-key.ts';
import { followPages } from '../../service/told-pages.ts';
import type { ScoreView, ShownPages } from '../score-view.ts';
import { comingPages } from './coming-pages.ts';
import type { PageIndex } from './page-markings.ts';
import type { ReadPage } from './read-page.ts';

/** How far the drawing is. */
export interface DrawingProgress {
  readonly ready: number;
  /** As far as that is known. */
  readonly of: number;
}

/** The pages of the open score as the service draws them. */
export type DrawnPages<Index = PageIndex> =
  | { readonly kind: 'drawing' }
  | {
      readonly kind: 'drawn';
      /** Those that are there. */
      readonly pages: readonly string[];
      /** Where the plan stands on them. */
      readonly index: Index;
      /** Some are of an earlier plan or look: new ones are being drawn, or could not be (the sentence says why). */
      readonly stale: false | { readonly trouble: string | null };
      /** Null where all are there. */
      readonly progress: DrawingProgress | null;
      /** The element that brings the pages their letters, once all are there. */
      readonly letters: string;
    }
  | { readonly kind: 'failed'; readonly sentence: string };

/** Why the pages could not be drawn; null where they are, or are being drawn. */
export const troubleOf = (drawn: DrawnPages<unknown>): string | null => {
  if (drawn.kind === 'failed') return drawn.sentence;
  return drawn.kind === 'drawn' && drawn.stale !== false ? drawn.stale.trouble : null;
};

/** Whether all are there, and of the plan as it is. */
export const areAllDrawn = (drawn: DrawnPages<unknown>): boolean =>
  drawn.kind === 'drawn' && drawn.stale === false && drawn.progress === null;

/** How long the user must be still before pages are drawn anew. */
const STILL_MS = 350;

/** Asks for the pages whenever the order changes; an answer that is no longer wanted is given up. */
const useShown = (order: Order, view: ScoreView) => {
  const [shown, setShown] = useState(view.shown);
  const isFirst = useRef(true);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [attempt, setAttempt] = useState(0);
  useEffect(() => {
    const leaving = new AbortController();
    setTrouble(null);
    const coming = comingPages(shown?.pages ?? [], (pages) => {
      const now: ShownPages = { ...pages, order };
      view.shown = now;
      setShown(now);
    });
    const ask = async (): Promise<void> => {
      try {
        const answer = await followPages(
          order,
          leaving.signal,
          coming.take,
          shown === null ? null : view.bar,
        );
        if (leaving.signal.aborted) return;
        if (answer.ok) coming.end(answer.value);
        else setTrouble(`${answer.sentence} ${STRINGS.score.planStands}`);
      } catch (error) {
        if (!leaving.signal.aborted) throw error;
      }
    };
    const timer = setTimeout(() => void ask(), shown === null || isFirst.current ? 0 : STILL_MS);
    isFirst.current = false;
    return () => {
      clearTimeout(timer);
      coming.giveUp();
      leaving.abort();
    };
  }, [order, attempt]);
  const redraw = (): void => {
    askForKeyAgain();
    setAttempt((n) => n + 1);
  };
  return { shown, trouble, redraw };
};

/**
 * The pages of the score, the look and the work as they are, each shown as soon as it is there. An old page stays until
 * the new one is there.
 *
 * @param indexOf finds the plan on the pages; another function where the plan is another
 * @param view the new page of its bar comes first, where there are old ones to look at meanwhile
 */
export const usePages = <Index>(
  order: Order,
  indexOf: (pages: readonly ReadPage[]) => Index,
  view: ScoreView,
): { readonly drawn: DrawnPages<Index>; readonly redraw: () => void } => {
  const { shown, trouble, redraw } = useShown(order, view);
  const index = useMemo(() => (shown === null ? null : indexOf(shown.pages)), [shown?.pages, indexOf]);
  const isFresh = shown?.order === order && !shown.areMixed && trouble === null;
  const drawn = useMemo((): DrawnPages<Index> => {
    if (shown === null || index === null) {
      return trouble === null ? { kind: 'drawing' } : { kind: 'failed', sentence: trouble };
    }
    const { letters, of, ready } = shown;
    return {
      kind: 'drawn',
      pages: shown.pages.map(({ svg }) => svg),
      index,
      stale: isFresh ? false : { trouble },
      progress: shown.order === order && letters === null ? { ready, of } : null,
      letters: letters ?? '',
    };
  }, [shown, index, trouble, isFresh, order]);
  return { drawn, redraw };
};
