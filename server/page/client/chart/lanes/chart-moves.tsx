import { formatChange, type Letter, type Move, rationalKey } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { MomentPlace, PlannedPart } from '../../planner/planned-part.ts';
import type { MoveDrag } from '../drag/chart-drag.ts';
import { laneBox, levelOf, moveQuarters, type XOf } from '../geometry/chart-geometry.ts';
import { ChartPoint, type PointUse } from './chart-point.tsx';

const words = STRINGS.chart;

const labelOf = (part: PlannedPart, move: Move, pinned: boolean): string =>
  STRINGS.spoken(
    [
      formatChange(move.letter, move.to),
      STRINGS.foot[move.foot],
      STRINGS.detail.at(part.bars[move.bar]!.name, rationalKey(move.beat)),
      ...(pinned ? [words.pinned] : []),
    ].join(', '),
  );

/** Px right of a point at which its name begins, clear of the line, its frame and the ring of the focus; what the name takes. */
const NAME_AT = 9;
const FRAMED_NAME_AT = 11;
const NAME_WIDTH = 23;

/** Moves whose name, such as `F♯`, has room before the next point of the same lane. */
export const namedMoves = (part: PlannedPart, xOf: XOf): ReadonlySet<number> => {
  const next = new Map<Letter, number>();
  const named = part.plan.moves
    .map((move, i) => ({ i, x: xOf(moveQuarters(part, move)), letter: move.letter }))
    .reverse();
  return new Set(
    named.flatMap(({ i, x, letter }) => {
      const room = (next.get(letter) ?? Number.POSITIVE_INFINITY) - x;
      next.set(letter, x);
      return room >= NAME_AT + NAME_WIDTH ? [i] : [];
    }),
  );
};

/** A move with the place where it would fall. */
const nameTarget = ({ bars }: PlannedPart, { letter, to }: Move, { barIndex, beat }: MomentPlace): string =>
  `${formatChange(letter, to)}: ${STRINGS.detail.at(bars[barIndex]!.name, beat)}`;

export interface MovePointProps extends PointUse {
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
}

/** A move as a point in its pedal's lane: to be gone to, dragged and stepped. */
export const MovePoint = ({ part, at, xOf, drag, pinned, named, ...use }: MovePointProps) => {
  const move = part.plan.moves[at]!;
  const dragged = drag?.move === at;
  const x = xOf(dragged ? drag.to.quarters : moveQuarters(part, move));
  const y = levelOf(move.letter, move.to);
  const name = {
    text: dragged ? nameTarget(part, move, drag.to) : formatChange(move.letter, move.to),
    x: x + (pinned || dragged ? FRAMED_NAME_AT : NAME_AT),
    y: y + (move.to === -1 ? 12 : -3),
  };
  return (
    <ChartPoint
      {...use}
      {...{ at, x, y, dragged }}
      side={move.foot}
      lane={laneBox(move.letter)}
      label={labelOf(part, move, pinned)}
      pinned={pinned || dragged}
      name={named || dragged ? name : null}
    />
  );
};
