import { useMemo, useRef } from 'preact/hooks';
import type { BarPlace } from '../planner/planned-part.ts';

/** So long after a turn of the wheel, a touch or a key a scroll is the user's, and not that of another view. In ms. */
const OWN_SCROLL_MS = 1500;

/** The first bar of the pages that is in view, as an index; null where none is. */
export const firstBarIn = (pane: HTMLElement, indexOf: ReadonlyMap<string, number>): number | null => {
  const { top, bottom } = pane.getBoundingClientRect();
  for (const sheet of pane.querySelectorAll<HTMLElement>('.sheet')) {
    const box = sheet.getBoundingClientRect();
    if (box.bottom <= top || box.top >= bottom) continue;
    for (const measure of sheet.querySelector('.paper')?.shadowRoot?.querySelectorAll('g.measure') ?? []) {
      const bar = indexOf.get(measure.id);
      if (bar !== undefined && measure.getBoundingClientRect().top >= top) return bar;
    }
  }
  return null;
};

/**
 * Tells which bar comes first in view when the user scrolls the pages.
 *
 * @returns handlers for the pane that scrolls
 */
export const useBarInView = (bars: readonly BarPlace[], onBar: (bar: number) => void) => {
  const touched = useRef(Number.NEGATIVE_INFINITY);
  const waiting = useRef(false);
  const indexOf = useMemo(() => new Map(bars.map(({ id }, i) => [id, i])), [bars]);
  const touch = (): void => {
    touched.current = performance.now();
  };
  const look = (pane: HTMLElement): void => {
    if (waiting.current || performance.now() - touched.current > OWN_SCROLL_MS) return;
    waiting.current = true;
    requestAnimationFrame(() => {
      waiting.current = false;
      const bar = firstBarIn(pane, indexOf);
      if (bar !== null) onBar(bar);
    });
  };
  return { onWheel: touch, onTouchMove: touch, onPointerDown: touch, onTurn: touch, look, indexOf };
};
