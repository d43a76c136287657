import { useEffect, useMemo, useState } from 'preact/hooks';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { fetchPages, type Order } from '../service/annotate-request.ts';
import { askForKeyAgain } from '../service/service-key.ts';
import { indexPages, type PageIndex, type ReadPages, readPages } from './page-markings.ts';

/** The pages of the open score as the service draws them. */
export type DrawnPages =
  | { readonly kind: 'drawing' }
  | {
      readonly kind: 'drawn';
      readonly pages: readonly string[];
      readonly index: PageIndex;
      /** They are of an earlier plan or look: new ones are being drawn, or could not be (the sentence says why). */
      readonly stale: false | { readonly trouble: string | null };
    }
  | { readonly kind: 'failed'; readonly sentence: string };

/** Why the pages could not be drawn; null where they are, or are being drawn. */
export const troubleOf = (drawn: DrawnPages): string | null => {
  if (drawn.kind === 'failed') return drawn.sentence;
  return drawn.kind === 'drawn' && drawn.stale !== false ? drawn.stale.trouble : null;
};

/** How long the user must be still before pages are drawn anew. */
const STILL_MS = 350;

interface Shown {
  readonly pages: readonly string[];
  readonly read: ReadPages;
  readonly order: Order;
}

/**
 * Asks for the pages whenever the score, the look or the work changes; an answer that is no longer wanted is given up.
 * The old pages stay until the new ones are there.
 */
export const usePages = (
  order: Order,
  part: PlannedPart,
): { readonly drawn: DrawnPages; readonly redraw: () => void } => {
  const [shown, setShown] = useState<Shown | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [attempt, setAttempt] = useState(0);
  const barIds = useMemo(() => part.bars.map(({ id }) => id), [part.bars]);
  useEffect(() => {
    const leaving = new AbortController();
    setTrouble(null);
    const ask = async (): Promise<void> => {
      try {
        const answer = await fetchPages(order, leaving.signal);
        if (leaving.signal.aborted) return;
        if (answer.ok) setShown({ pages: answer.value, read: readPages(answer.value, barIds), order });
        else setTrouble(`${answer.sentence} ${STRINGS.score.planStands}`);
      } catch (error) {
        if (!leaving.signal.aborted) throw error;
      }
    };
    const timer = setTimeout(() => void ask(), shown === null ? 0 : STILL_MS);
    return () => {
      clearTimeout(timer);
      leaving.abort();
    };
  }, [order, attempt]);
  const index = useMemo(
    () => (shown === null ? null : indexPages(shown.read, part.plan)),
    [shown, part.plan],
  );
  const isFresh = shown?.order === order;
  const drawn = useMemo((): DrawnPages => {
    if (shown === null || index === null) {
      return trouble === null ? { kind: 'drawing' } : { kind: 'failed', sentence: trouble };
    }
    return { kind: 'drawn', pages: shown.pages, index, stale: isFresh ? false : { trouble } };
  }, [shown, index, trouble, isFresh]);
  const redraw = (): void => {
    askForKeyAgain();
    setAttempt((n) => n + 1);
  };
  return { drawn, redraw };
};
