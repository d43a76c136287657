import type { Side } from '../../../../../engine/index.ts';

/** Px from a point within which it is taken: half of the least that a finger needs. */
const GRIP = 12;

/** A square or a disc of a size. */
const shapeOf = (side: Side, x: number, y: number, size: number, className?: string) =>
  side === 'left' ? (
    <rect class={className} x={x - size} y={y - size} width={2 * size} height={2 * size} />
  ) : (
    <circle class={className} cx={x} cy={y} r={size + 0.5} />
  );

/** What a point of a chart does when it is gone to, chosen, or a key is pressed on it. */
export interface PointUse {
  readonly onSelect: () => void;
  readonly onPeek?: (here: boolean) => void;
  readonly onKey: (event: KeyboardEvent) => void;
  /** What drags it. */
  readonly handlers: Readonly<Record<string, (event: PointerEvent) => void>>;
}

export interface ChartPointProps extends PointUse {
  /** Index into the plan's moves. */
  readonly at: number;
  /** The foot or hand that makes it. */
  readonly side: Side;
  /** Its place, and its lane: px of the chart. */
  readonly x: number;
  readonly y: number;
  readonly lane: { readonly top: number; readonly height: number };
  /** What is read out. */
  readonly label: string;
  readonly selected: boolean;
  readonly tabStop: boolean;
  readonly dragged: boolean;
  readonly pinned: boolean;
  /** Written beside it. */
  readonly name?: { readonly text: string; readonly x: number; readonly y: number } | null;
}

/** A move as a point of its lane: left square, right round, what the user fixed framed, so that they are told apart without colour. */
export const ChartPoint = (props: ChartPointProps) => {
  const { at, side, x, y, lane, selected, dragged, pinned, name = null, onSelect, onPeek } = props;
  const gripHeight = Math.max(lane.height, 2 * GRIP);
  const classes = ['point', side, selected ? 'selected' : '', dragged ? 'dragged' : ''];
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing can hold no button
    <g
      {...props.handlers}
      data-move={at}
      class={classes.filter((each) => each !== '').join(' ')}
      role="button"
      aria-pressed={selected}
      aria-label={props.label}
      // In lower case: an SVG element knows no other.
      tabindex={props.tabStop ? 0 : -1}
      onFocus={onSelect}
      onClick={onSelect}
      onKeyDown={props.onKey}
      onPointerEnter={() => onPeek?.(true)}
      onPointerLeave={() => onPeek?.(false)}
    >
      <rect
        class="grip"
        x={x - GRIP}
        y={lane.top + lane.height / 2 - gripHeight / 2}
        width={2 * GRIP}
        height={gripHeight}
      />
      {pinned && shapeOf(side, x, y, 8, 'frame')}
      {shapeOf(side, x, y, pinned ? 4 : 5)}
      {name !== null && (
        <text class="name" x={name.x} y={name.y}>
          {name.text}
        </text>
      )}
    </g>
  );
};
