import { bisector } from 'd3-array';
import { useLayoutEffect, useState } from 'preact/hooks';

/** A stretch of score time in quarters. */
export interface QuarterSpan {
  readonly from: number;
  readonly until: number;
}

/** Everything. */
export const WHOLE_CHART: QuarterSpan = { from: Number.NEGATIVE_INFINITY, until: Number.POSITIVE_INFINITY };

/** A chart no longer than this is drawn whole; of a longer one, in steps of `STEP`, what is near the view. In px. */
const DRAWN_WHOLE = 24_000;
const STEP = 4_000;

export const isNear = ({ from, until }: QuarterSpan, quarters: number): boolean =>
  quarters >= from && quarters <= until;

/** Index of the first that is not before a score time, of a list in order of time. */
const firstFrom: (list: readonly Onset[], quarters: number) => number = bisector(
  ({ onsetQuarters }: Onset) => onsetQuarters,
).left;

interface Onset {
  readonly onsetQuarters: number;
}

/** Those that begin within the span, of a list in order of time. */
export const nearOf = <T extends Onset>(list: readonly T[], { from, until }: QuarterSpan): readonly T[] =>
  from === WHOLE_CHART.from ? list : list.slice(firstFrom(list, from), firstFrom(list, until));

/**
 * The part of a long chart that is worth drawing: what is seen and as much on either side.
 *
 * @param width px of a quarter note
 * @param total px of the whole chart
 */
export const useChartWindow = (
  pane: { readonly current: HTMLElement | null },
  width: number,
  total: number,
): QuarterSpan => {
  const [step, setStep] = useState(0);
  useLayoutEffect(() => {
    const element = pane.current;
    if (element === null || total <= DRAWN_WHOLE) return;
    const look = (): void => setStep(Math.floor(element.scrollLeft / STEP));
    // Not at once: where it stands is known without more work once all of the page has its place.
    const frame = requestAnimationFrame(look);
    element.addEventListener('scroll', look, { passive: true });
    return () => {
      cancelAnimationFrame(frame);
      element.removeEventListener('scroll', look);
    };
  }, [total]);
  if (total <= DRAWN_WHOLE) return WHOLE_CHART;
  return { from: ((step - 1) * STEP) / width, until: ((step + 3) * STEP) / width };
};
