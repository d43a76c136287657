import { useCallback, useMemo } from 'preact/hooks';
import type { Order } from '../../service/annotate-request.ts';
import type { ScoreView } from '../score-view.ts';
import { useOrderOnScreen } from '../screen-layout.ts';
import { usePages } from './drawn-pages.ts';
import type { ReadPage } from './read-page.ts';

/**
 * The pages of the work as the screen has room for them.
 *
 * @param view the page of the bar that is looked at comes first
 * @param plan what the pages show of the work
 * @param find finds the plan on the pages
 */
export const usePagesOnScreen = <Plan, Index>(
  order: Order,
  view: ScoreView,
  bars: readonly { readonly id: string }[],
  plan: Plan,
  find: (pages: readonly ReadPage[], barIds: readonly string[], plan: Plan) => Index,
) => {
  const { layout, onScreen } = useOrderOnScreen(order, view);
  const barIds = useMemo(() => bars.map(({ id }) => id), [bars]);
  const indexOf = useCallback((pages: readonly ReadPage[]) => find(pages, barIds, plan), [barIds, plan]);
  const { drawn, redraw } = usePages(onScreen, indexOf, view);
  return { layout, drawn, redraw };
};
