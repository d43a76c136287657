import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { MoveDrag } from '../../chart/drag/chart-drag.ts';
import type { XOf } from '../../chart/geometry/chart-geometry.ts';
import { isNear, type QuarterSpan } from '../../chart/geometry/chart-window.ts';
import { ChartPoint, type PointUse } from '../../chart/lanes/chart-point.tsx';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import type { ReadPart } from '../../planner/planned-part.ts';
import { changeQuarters, type LeverMove, pinOfChange } from '../lever-moves.ts';
import type { LeverLooking } from '../lever-selection.ts';
import { laneBox, levelOf } from './lever-lanes.tsx';

/** A change of a lever as a point in its string's lane. */
const ChangePoint = ({
  part,
  move,
  lane,
  isPinned,
  drag,
  xOf,
  ...use
}: PointUse & {
  readonly part: ReadPart;
  readonly at: number;
  readonly move: LeverMove;
  readonly lane: number;
  readonly isPinned: boolean;
  readonly drag: MoveDrag | null;
  readonly xOf: XOf;
  readonly selected: boolean;
  readonly tabStop: boolean;
}) => {
  const dragged = drag?.move === use.at;
  const pinned = dragged || isPinned;
  return (
    <ChartPoint
      {...use}
      side={move.hand}
      x={xOf(dragged ? drag.to.quarters : changeQuarters(part, move))}
      y={levelOf(lane, move.to)}
      lane={laneBox(lane)}
      label={STRINGS.spoken(
        LEVER_STRINGS.chart.point(move.change, move.hand, move.barName, move.beat, pinned),
      )}
      dragged={dragged}
      pinned={pinned}
    />
  );
};

export interface LeverPointsProps {
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  readonly actions: DecisionActions;
  readonly looking: LeverLooking;
  readonly strings: readonly string[];
  readonly xOf: XOf;
  readonly near: QuarterSpan;
  /** A change that is gone to by key. */
  readonly wanted: number | null;
  readonly drag: MoveDrag | null;
  readonly handlersFor: (move: number) => PointUse['handlers'];
  readonly onKey: (event: KeyboardEvent, move: number) => void;
}

/** All changes that are near what is seen. */
export const LeverPoints = ({
  part,
  report: { moves },
  actions,
  looking,
  strings,
  near,
  wanted,
  ...use
}: LeverPointsProps) => {
  const { xOf, drag } = use;
  const tabStop = looking.move ?? 0;
  /** Drawn wherever it is: what is chosen, what the Tab key goes to, what is gone to or dragged. */
  const isKept = (at: number): boolean => at === tabStop || at === wanted || at === drag?.move;
  return moves.map(
    (move, i) =>
      (isKept(i) || isNear(near, changeQuarters(part, move))) && (
        <ChangePoint
          key={i}
          {...{ part, move, drag, xOf }}
          at={i}
          lane={strings.indexOf(move.string)}
          isPinned={pinOfChange(actions.decisions, move) !== null}
          selected={looking.move === i}
          tabStop={i === tabStop}
          handlers={use.handlersFor(i)}
          onSelect={() => looking.look({ kind: 'move', index: i }, 'pane')}
          onKey={(event) => use.onKey(event, i)}
        />
      ),
  );
};
