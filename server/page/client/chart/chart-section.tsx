import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useState } from 'preact/hooks';
import { scrollBehaviour } from '../controls/scrolling.ts';

export interface ChartSectionProps {
  readonly heading: string;
  /** Beside the heading while the chart is open. */
  readonly tools: ComponentChildren;
  readonly pane: { current: HTMLDivElement | null };
  readonly children: ComponentChildren;
}

/** A chart under its heading, which folds it away: the score then takes its room. */
export const ChartSection = ({ heading, tools, pane, children }: ChartSectionProps) => {
  const [isOpen, setOpen] = useState(true);
  return (
    <section class="pedals">
      <div class="tools">
        <h2>
          <button type="button" class="fold" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
            {heading}
          </button>
        </h2>
        {isOpen && tools}
      </div>
      <section
        ref={pane}
        class="chart-pane"
        hidden={!isOpen}
        aria-label={heading}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by key (WCAG 2.1.1)
        tabIndex={0}
      >
        {children}
      </section>
    </section>
  );
};

/** Brings a score time to the middle of a chart. @param wish a new object for each wish */
export const useWishedTime = (
  pane: { readonly current: HTMLElement | null },
  xOf: (quarters: number) => number,
  wish: unknown,
  /** In quarters; null where nothing is wished. */
  quarters: number | null,
): void => {
  useLayoutEffect(() => {
    if (quarters === null) return;
    const { clientWidth } = pane.current!;
    pane.current!.scrollTo({ left: xOf(quarters) - clientWidth / 2, behavior: scrollBehaviour() });
  }, [wish]);
};

/** Scrolls a chart along with the score: the bar that comes first there stands at the left here. */
export const useFollowedBar = (
  pane: { readonly current: HTMLElement | null },
  /** An index; null before the user has scrolled the score. */
  bar: number | null,
  /** Px from the left of the chart at which a bar begins, less what covers the left of the pane. */
  leftOf: (bar: number) => number,
): void => {
  useLayoutEffect(() => {
    if (bar !== null) pane.current?.scrollTo({ left: leftOf(bar), behavior: scrollBehaviour() });
  }, [bar]);
};
