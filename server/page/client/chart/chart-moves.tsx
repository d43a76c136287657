import {
  type Foot,
  formatChange,
  type Letter,
  type Move,
  rationalKey,
  toNumber,
} from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import { laneBox, levelOf, type XOf } from './chart-geometry.ts';
import type { MoveDrag } from './drag/chart-drag.ts';

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

/** Px right of a point at which its name begins, clear of the line, and what the name takes. */
const NAME_AT = 7;
const NAME_WIDTH = 20;

/** Moves whose name, such as `F♯`, has room before the next point of the same lane. */
export const namedMoves = (moves: readonly Move[], xOf: XOf): ReadonlySet<number> => {
  const next = new Map<Letter, number>();
  const named = moves.flatMap((move, i) => [{ i, x: xOf(toNumber(move.at)), letter: move.letter }]).reverse();
  return new Set(
    named.flatMap(({ i, x, letter }) => {
      const room = (next.get(letter) ?? Number.POSITIVE_INFINITY) - x;
      next.set(letter, x);
      return room >= NAME_AT + NAME_WIDTH ? [i] : [];
    }),
  );
};

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
  named,
}: {
  readonly move: Move;
  readonly x: number;
  readonly pinned: boolean;
  readonly named: boolean;
}) => {
  const y = levelOf(move.letter, move.to);
  const { top, height } = laneBox(move.letter);
  return (
    <>
      <rect class="grip" x={x - GRIP} y={top} width={2 * GRIP} height={height} />
      {pinned && shapeOf(move.foot, x, y, 8, 'frame')}
      {shapeOf(move.foot, x, y, pinned ? 4 : 5)}
      {named && (
        <text class="name" x={x + NAME_AT} y={y + (move.to === -1 ? 12 : -3)}>
          {formatChange(move.letter, move.to)}
        </text>
      )}
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
  /** Its name has room beside it. */
  readonly named: boolean;
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
        named={props.named || dragged !== null}
      />
    </g>
  );
};
