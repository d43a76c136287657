import type { ComponentChildren } from 'preact';
import { useMemo, useRef } from 'preact/hooks';
import type { BarPlace } from '../planner/planned-part.ts';
import { type OnPage, PagesHeading, PagesPane } from '../score/pages-pane.tsx';
import type { LeverMarking } from './lever-markings.ts';

export interface LeverPagesProps {
  readonly bars: readonly BarPlace[];
  readonly pages: readonly string[];
  readonly markings: readonly LeverMarking[];
  /** They are of an earlier plan or look. */
  readonly stale: boolean;
  /** Why they still are. */
  readonly trouble: ComponentChildren;
  /** Id of the marking that is looked at. */
  readonly selected: string | null;
  /** Ids of the notes that ask for it. */
  readonly asking: readonly string[];
  readonly wish: OnPage | null;
  readonly onSelect: (marking: string) => void;
  /** The user scrolled: a bar, as an index, now comes first in view. */
  readonly onBarInView: (bar: number) => void;
}

/** The pages of a part for the lever harp. */
export const LeverPages = ({ asking, selected, trouble, ...props }: LeverPagesProps) => {
  const pane = useRef<HTMLDivElement>(null);
  const emphasis = useMemo(
    () => ({ selected, notes: asking, tabStop: selected ?? props.markings[0]?.id ?? null }),
    [selected, asking, props.markings],
  );
  return (
    <section class="score">
      <PagesHeading />
      {trouble}
      <PagesPane
        {...props}
        pane={pane}
        listening={false}
        emphasis={emphasis}
        onNote={() => {}}
        onPeek={() => {}}
      />
    </section>
  );
};
