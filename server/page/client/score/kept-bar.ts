import { useEffect, useRef, useState } from 'preact/hooks';
import type { BarPlace } from '../planner/planned-part.ts';
import { firstBarIn } from './bar-in-view.ts';
import type { OnPage } from './page-sheet.tsx';

/**
 * Laid out in other lines, the pages show the bar that they showed.
 *
 * @param handed index of the bar that was looked at in the score that this one takes the place of
 */
export const useKeptBar = (
  pane: { readonly current: HTMLElement | null },
  {
    bars,
    pages,
    stale,
  }: { readonly bars: readonly BarPlace[]; readonly pages: readonly string[]; readonly stale: boolean },
  handed: number | null,
) => {
  const bar = useRef(handed === null ? null : (bars[handed]?.id ?? null));
  const reach = useRef<OnPage['reach']>('nearest');
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
