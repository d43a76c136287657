import { useCallback, useMemo, useRef } from 'preact/hooks';
import type { Order } from '../service/annotate-request.ts';
import { usePages } from './drawn-pages.ts';
import type { ReadPage } from './read-page.ts';
import { useOrderOnScreen } from './screen-layout.ts';

/**
 * The pages of the work as the screen has room for them, and the bar (an index) that is looked at, whose page comes first.
 *
 * @param plan what the pages show of the work
 * @param find finds the plan on the pages
 */
export const usePagesOnScreen = <Plan, Index>(
  order: Order,
  bars: readonly { readonly id: string }[],
  plan: Plan,
  find: (pages: readonly ReadPage[], barIds: readonly string[], plan: Plan) => Index,
) => {
  const { layout, onScreen } = useOrderOnScreen(order);
  const barIds = useMemo(() => bars.map(({ id }) => id), [bars]);
  const indexOf = useCallback((pages: readonly ReadPage[]) => find(pages, barIds, plan), [barIds, plan]);
  const lookedAt = useRef<number | null>(null);
  const { drawn, redraw } = usePages(onScreen, indexOf, lookedAt);
  return { layout, drawn, redraw, lookedAt };
};
