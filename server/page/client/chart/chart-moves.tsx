import { type Foot, formatChange } from '../../../../engine/harp/setting.ts';
import { rationalKey, toNumber } from '../../../../engine/music/rational.ts';
import type { Move } from '../../../../engine/pedals/model.ts';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { MoveDrag } from './chart-drag.ts';
import { laneBox, levelOf, type XOf } from './chart-geometry.ts';

const words = STRINGS.chart;

/** Px from a point within which it is taken. */
const GRIP = 12;

const labelOf = (part: PlannedPart, move: Move, pinned: boolean): string =>
  STRINGS.spoken(
    [
      formatChange(move.letter, move.to),
      STRINGS.foot[move.foot],
      STRINGS.detail.at(part.bars[move.bar]!.number, rationalKey(move.beat)),
      ...(pinned ? [words.pinned] : []),
    ].join(', '),
  );

/** A square or a disc of a size. */
const shapeOf = (foot: Foot, x: number, y: number, size: number, className?: string) =>
  foot === 'left' ? (
    <rect class={className} x={x - size} y={y - size} width={2 * size} height={2 * size} />
  ) : (
    <circle class={className} cx={x} cy={y} r={size + 0.5} />
  );

/** Left foot square, right foot round, what the user fixed framed: told apart without colour. */
const Point = ({
  move,
  x,
  pinned,
}: {
  readonly move: Move;
  readonly x: number;
  readonly pinned: boolean;
}) => {
  const y = levelOf(move.letter, move.to);
  const { top, height } = laneBox(move.letter);
  return (
    <>
      <rect class="grip" x={x - GRIP} y={top} width={2 * GRIP} height={height} />
      {pinned && shapeOf(move.foot, x, y, 8, 'frame')}
      {shapeOf(move.foot, x, y, pinned ? 4 : 5)}
    </>
  );
};

export interface MovePointProps {
  readonly part: PlannedPart;
  /** Index into the plan's moves. */
  readonly at: number;
  readonly xOf: XOf;
  readonly selected: boolean;
  readonly tabStop: boolean;
  readonly pinned: boolean;
  readonly drag: MoveDrag | null;
  readonly handlers: Readonly<Record<string, (event: PointerEvent) => void>>;
  readonly onSelect: () => void;
  readonly onPeek: (here: boolean) => void;
  readonly onKey: (event: KeyboardEvent) => void;
}

/** A move as a point in its pedal's lane: to be gone to, dragged and stepped. */
export const MovePoint = (props: MovePointProps) => {
  const { part, at, xOf, selected, pinned, drag, onSelect, onPeek, onKey } = props;
  const move = part.plan.moves[at]!;
  const dragged = drag?.move === at ? drag : null;
  const classes = ['point', move.foot, selected ? 'selected' : '', dragged === null ? '' : 'dragged'];
  return (
    // biome-ignore lint/a11y/useSemanticElements: a drawing can hold no button
    <g
      {...props.handlers}
      data-move={at}
      class={classes.filter((each) => each !== '').join(' ')}
      role="button"
      aria-pressed={selected}
      aria-label={labelOf(part, move, pinned)}
      // In lower case: an SVG element knows no other.
      tabindex={props.tabStop ? 0 : -1}
      onFocus={onSelect}
      onClick={onSelect}
      onKeyDown={onKey}
      onPointerEnter={() => onPeek(true)}
      onPointerLeave={() => onPeek(false)}
    >
      <Point
        move={move}
        x={xOf(dragged?.to.quarters ?? toNumber(move.at))}
        pinned={pinned || dragged !== null}
      />
    </g>
  );
};
