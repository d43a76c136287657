import { useEffect, useRef, useState } from 'preact/hooks';
import type { BarPlace } from '../planner/planned-part.ts';
import { firstBarIn } from './bar-in-view.ts';
import type { OnPage } from './page-sheet.tsx';
import type { ScoreView } from './score-view.ts';

/**
 * Laid out in other lines, the pages show the bar that they showed.
 *
 * @param view its bar is shown at first: that of the score which this one takes the place of, or of the last visit
 */
export const useKeptBar = (
  pane: { readonly current: HTMLElement | null },
  {
    bars,
    pages,
    stale,
  }: { readonly bars: readonly BarPlace[]; readonly pages: readonly string[]; readonly stale: boolean },
  view: Pick<ScoreView, 'bar' | 'isHanded'>,
) => {
  const bar = useRef(view.bar === null ? null : (bars[view.bar]?.id ?? null));
  // What takes the place of another stands where that one stood already.
  const reach = useRef<OnPage['reach']>(view.isHanded ? 'nearest' : 'pane');
  const [kept, setKept] = useState<OnPage | null>(null);
  const keep = (indexOf: ReadonlyMap<string, number>): void => {
    const at = firstBarIn(pane.current!, indexOf);
    bar.current = at === null ? null : bars[at]!.id;
    reach.current = 'pane';
  };
  useEffect(() => {
    const id = bar.current;
    if (id === null) return;
    const page = pages.findIndex((svg) => svg.includes(`id="${id}"`)) + 1;
    // Pages come one by one: the one with the bar may be still to come.
    if (page === 0 || stale) return;
    bar.current = null;
    setKept({ ids: [id], page, focus: false, reach: reach.current });
  }, [pages, stale]);
  return { kept, keep, forget: () => setKept(null) };
};
