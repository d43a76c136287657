import type { ComponentChildren } from 'preact';
import { STRINGS } from '../../strings/strings.ts';
import { StepButton } from '../controls/step-button.tsx';

const words = STRINGS.chart;

/** Px of a quarter note; `whole` fits the whole piece into the view. */
export type ChartZoom = number | 'whole';

/** The steps from narrow to wide, in px of a quarter note. */
const WIDTHS = [3, 6, 12, 24, 48] as const;

/** A step wider or narrower, from the width that is shown now. @returns null where there is none */
const stepWidth = (now: number, by: 1 | -1): number | null =>
  (by === 1 ? WIDTHS.find((width) => width > now) : WIDTHS.findLast((width) => width < now)) ?? null;

/** What the signs of the chart mean, to be opened. */
export const Legend = ({ children }: { readonly children: ComponentChildren }) => (
  <details class="legend">
    <summary>{words.legend.heading}</summary>
    <p>{children}</p>
  </details>
);

/** Signs of the chart of either harp. */
export const SharedSigns = () => (
  <>
    <span class="key frame" /> {words.legend.pinned} <span class="key shade" /> {words.legend.hard}{' '}
    <span class="key cross">✕</span> {words.legend.stop}
  </>
);

export interface ChartToolsProps {
  readonly zoom: ChartZoom;
  /** Px of a quarter note as it is drawn. */
  readonly width: number;
  readonly onZoom: (zoom: ChartZoom) => void;
  readonly onSave: () => void;
  /** What the signs mean. */
  readonly children: ComponentChildren;
}

export const ChartTools = ({ zoom, width, onZoom, onSave, children }: ChartToolsProps) => {
  const step = (by: 1 | -1) => {
    const next = stepWidth(width, by);
    return (
      <StepButton
        label={by === 1 ? words.wider : words.narrower}
        atEnd={next === null}
        onClick={() => onZoom(next!)}
      >
        {by === 1 ? '+' : '−'}
      </StepButton>
    );
  };
  return (
    <>
      <Legend>{children}</Legend>
      <span class="gap" />
      <span class="together">
        {step(-1)}
        {step(1)}
        <button
          type="button"
          aria-pressed={zoom === 'whole'}
          onClick={() => onZoom(zoom === 'whole' ? 12 : 'whole')}
        >
          {words.whole}
        </button>
        <button type="button" onClick={onSave}>
          {words.save}
        </button>
      </span>
    </>
  );
};
