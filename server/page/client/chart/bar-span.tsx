import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { STRINGS } from '../../strings/strings.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { endOfBar } from '../decisions/places.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { barAt, LEFT, lengthQuarters, type XOf } from './geometry/chart-geometry.ts';

/** Some bars one after the other: indices of the first and the last. */
export interface BarSpan {
  readonly first: number;
  readonly last: number;
}

/** Where the bar numbers stand: dragging over them chooses bars. */
export const BarStrip = ({
  part,
  height,
  xOf,
  quartersAt,
  span,
  onSpan,
}: {
  readonly part: Pick<PlannedPart, 'bars'>;
  /** Of the chart. */
  readonly height: number;
  readonly xOf: XOf;
  readonly quartersAt: (clientX: number) => number;
  readonly span: BarSpan | null;
  readonly onSpan: (span: BarSpan) => void;
}) => {
  const begun = useRef<number | null>(null);
  const extend = (event: PointerEvent): void => {
    if (begun.current === null) return;
    const bar = barAt(part, quartersAt(event.clientX));
    onSpan({ first: Math.min(begun.current, bar), last: Math.max(begun.current, bar) });
  };
  const end = (): void => {
    begun.current = null;
  };
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: the same can be done by key in the forms of the decisions
    <g aria-hidden="true">
      {span !== null && <SpanShade part={part} height={height} span={span} xOf={xOf} />}
      <rect
        class="strip"
        x={LEFT}
        y={0}
        width={xOf(lengthQuarters(part)) - LEFT}
        height={18}
        onPointerDown={(event) => {
          if (event.button !== 0) return;
          event.currentTarget.setPointerCapture(event.pointerId);
          begun.current = barAt(part, quartersAt(event.clientX));
          extend(event);
        }}
        onPointerMove={extend}
        onPointerUp={end}
        onPointerCancel={end}
      >
        <title>{STRINGS.chart.strip}</title>
      </rect>
    </g>
  );
};

const SpanShade = ({
  part,
  height,
  span,
  xOf,
}: {
  readonly part: Pick<PlannedPart, 'bars'>;
  readonly height: number;
  readonly span: BarSpan;
  readonly xOf: XOf;
}) => {
  const { onsetQuarters, durationQuarters } = part.bars[span.last]!;
  const from = xOf(part.bars[span.first]!.onsetQuarters);
  return (
    <rect
      class="window"
      x={from}
      y={0}
      width={xOf(onsetQuarters + durationQuarters) - from}
      height={height}
    />
  );
};

/** What can be decided about chosen bars on either harp, and what else about theirs. */
export const SpanTools = ({
  part,
  span,
  actions,
  children,
  onClose,
}: {
  readonly part: Pick<PlannedPart, 'bars'>;
  readonly span: BarSpan;
  readonly actions: Pick<DecisionActions, 'decide'>;
  readonly children?: ComponentChildren;
  readonly onClose: () => void;
}) => {
  const words = STRINGS.decisions;
  const numberOf = (bar: number): string => part.bars[bar]!.name;
  const from = { barIndex: span.first, beat: '1' };
  return (
    <div class="span-tools">
      <strong>{words.bars(numberOf(span.first), numberOf(span.last))}</strong>
      <button
        type="button"
        class="small"
        onClick={() => {
          actions.decide({ kind: 'pin', pin: { kind: 'forbid', from, until: endOfBar(part, span.last) } });
          onClose();
        }}
      >
        {words.forbidBars}
      </button>
      {children}
      <button type="button" class="small" onClick={onClose}>
        {words.close}
      </button>
    </div>
  );
};
