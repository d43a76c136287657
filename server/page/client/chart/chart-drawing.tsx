import type { ComponentChildren } from 'preact';
import type { useKeptFocus } from './geometry/long-chart.ts';

export interface ChartDrawingProps {
  readonly drawing: { current: SVGSVGElement | null };
  readonly width: number;
  readonly height: number;
  readonly isDragging: boolean;
  readonly label: string;
  readonly focusWatch: ReturnType<typeof useKeptFocus>;
  readonly children: ComponentChildren;
}

/** The drawing of a chart, in which moves are gone through, dragged and stepped. */
export const ChartDrawing = ({
  drawing,
  width,
  height,
  isDragging,
  label,
  focusWatch,
  children,
}: ChartDrawingProps) => (
  // biome-ignore lint/a11y/useSemanticElements: a drawing is no set of form fields
  <svg
    ref={drawing}
    class={isDragging ? 'chart dragging' : 'chart'}
    width={width}
    height={height}
    // It watches the focus of its moves, for which some browsers would give it a place among the tab stops.
    tabindex={-1}
    role="group"
    aria-label={label}
    {...focusWatch}
  >
    {children}
  </svg>
);
