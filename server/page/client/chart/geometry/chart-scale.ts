import { useLayoutEffect, useState } from 'preact/hooks';
import type { ChartZoom } from '../chart-tools.tsx';
import { LEFT, type XOf } from './chart-geometry.ts';

/** Px between the letters and the first bar line. */
export const INDENT = LEFT + 4;

/** Px right of the last bar line. */
const END = 12;

/** Px of a quarter note: as chosen, or so that the whole piece fits into the pane, whatever its size becomes. */
const useWidth = (
  pane: { readonly current: HTMLElement | null },
  zoom: ChartZoom,
  quarters: number,
): number => {
  const [fitting, setFitting] = useState(1);
  useLayoutEffect(() => {
    if (zoom !== 'whole') return;
    const measure = (): void =>
      setFitting((pane.current!.clientWidth - INDENT - END) / Math.max(1, quarters));
    const watch = new ResizeObserver(measure);
    watch.observe(pane.current!);
    measure();
    return () => watch.disconnect();
  }, [zoom, quarters]);
  return zoom === 'whole' ? Math.max(0.2, fitting) : zoom;
};

/** Where the score times of a chart stand on its drawing and on the screen. */
export interface ChartScale {
  /** Px of a quarter note, and of the whole drawing. */
  readonly width: number;
  readonly total: number;
  readonly xOf: XOf;
  /** The score time, in quarters, under a place on the screen. */
  readonly quartersAt: (clientX: number) => number;
}

export const useScale = (
  pane: { readonly current: HTMLElement | null },
  drawing: { readonly current: SVGSVGElement | null },
  zoom: ChartZoom,
  quarters: number,
): ChartScale => {
  const width = useWidth(pane, zoom, quarters);
  const xOf: XOf = (at) => INDENT + at * width;
  const quartersAt = (clientX: number): number =>
    (clientX - drawing.current!.getBoundingClientRect().left - INDENT) / width;
  return { width, total: xOf(quarters) + END, xOf, quartersAt };
};
