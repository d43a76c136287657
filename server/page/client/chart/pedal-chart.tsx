import { useMemo, useRef, useState } from 'preact/hooks';
import { LETTERS, type Move, stopPlaces, toNumber } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { pinOfMove } from '../decisions/decision-edits.ts';
import { letGo, makeAt } from '../decisions/move-actions.tsx';
import { beginningOf, boundsOf } from '../planner/move-bounds.ts';
import { allowedFor, type Direction, stepMoment } from '../planner/moved-moment.ts';
import type { PlannedPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import type { PageIndex } from '../score/drawn/page-markings.ts';
import { movesOf } from '../selection/selected-moves.ts';
import type { Selection, Spot } from '../selection/spot.ts';
import type { ComparedPlan } from '../variants/compared-plan.ts';
import { type BarSpan, BarStrip, SpanTools } from './bar-span.tsx';
import { ChartDrawing } from './chart-drawing.tsx';
import { Playhead } from './chart-playhead.tsx';
import { ChartSection, useFollowedBar, useWishedTime } from './chart-section.tsx';
import { ChartTools, type ChartZoom, SharedSigns } from './chart-tools.tsx';
import { type MoveDrag, useMoveDrag } from './drag/chart-drag.ts';
import { HELD_IN_CHART, useHeldTouch } from './drag/held-touch.ts';
import { readMoveKey } from './drag/move-keys.ts';
import {
  findingQuarters,
  HEIGHT,
  laneBox,
  lengthQuarters,
  levelOf,
  moveQuarters,
  type XOf,
} from './geometry/chart-geometry.ts';
import { type ChartScale, INDENT, useScale } from './geometry/chart-scale.ts';
import { isNear, type QuarterSpan } from './geometry/chart-window.ts';
import { useKeptFocus, useLongChart } from './geometry/long-chart.ts';
import { Spans } from './lanes/chart-decisions.tsx';
import {
  Bars,
  type ChartedStop,
  Divider,
  HardSpots,
  Impossible,
  Lane,
  WindowBar,
} from './lanes/chart-lanes.tsx';
import { MovePoint, namedMoves } from './lanes/chart-moves.tsx';
import type { PointUse } from './lanes/chart-point.tsx';
import { LaneNames } from './lanes/lane-names.tsx';
import { OtherMoves } from './lanes/other-moves.tsx';

const words = STRINGS.chart;

export interface PedalChartProps {
  readonly part: PlannedPart;
  readonly index: PageIndex | null;
  readonly selection: Selection | null;
  readonly actions: DecisionActions;
  readonly listening: Listening | null;
  /** The bar that the score shows since the user scrolled it: an index; null before. */
  readonly barInView: number | null;
  /** Another plan, whose moves are shown too. */
  readonly compared: ComparedPlan<Move> | null;
  readonly onSelect: (spot: Spot) => void;
  readonly onPeek: (spot: Spot | null) => void;
}

/** Where the chart is to scroll: to the selection of another view. */
const quartersShown = (
  part: PlannedPart,
  index: PageIndex | null,
  selection: Selection | null,
): number | null => {
  if (selection === null || selection.origin === 'chart' || selection.origin === 'plan') return null;
  const { spot } = selection;
  if (spot.kind === 'place') return spot.quarters;
  if (spot.kind === 'finding') return findingQuarters(part, part.plan.findings[spot.finding]!);
  if (spot.kind === 'note') return toNumber(part.notes.get(spot.id)!.onset);
  const [move] = movesOf(spot, index);
  if (move !== undefined) return moveQuarters(part, part.plan.moves[move]!);
  const marking = spot.kind === 'marking' ? index?.markings.find(({ id }) => id === spot.id) : undefined;
  return marking?.onsetQuarters ?? null;
};

/** Steps, frees and goes along the moves by key. */
const useMoveKeys = (
  { part, actions }: Pick<PedalChartProps, 'part' | 'actions'>,
  goToMove: (move: number) => void,
) => {
  const stepMove = (at: number, direction: Direction): void => {
    const to = stepMoment(part, at, direction);
    if (to !== null) makeAt({ part, actions, at }, to);
  };
  return (at: number, event: KeyboardEvent): void => {
    const asked = readMoveKey(event, at, part.plan.moves.length - 1);
    if (asked === null) return;
    if (asked.kind === 'go') goToMove(asked.to);
    else if (asked.kind === 'step') stepMove(at, asked.direction);
    else letGo({ part, actions, at });
    event.preventDefault();
  };
};

/** What the pedal harp has more to decide about chosen bars. */
const PrintSetting = ({
  part,
  span,
  actions,
  onClose,
}: Pick<PedalChartProps, 'part' | 'actions'> & {
  readonly span: BarSpan;
  readonly onClose: () => void;
}) => (
  <button
    type="button"
    class="small"
    onClick={() => {
      actions.decide({ kind: 'setting', setting: { barIndex: span.first, beat: '1', print: true } });
      onClose();
    }}
  >
    {STRINGS.decisions.printAtBar(part.bars[span.first]!.name)}
  </button>
);

/** What lies under the moves: drawn again only when the plan, the scale or what is near changes. */
const useLanes = (
  { part, actions }: Pick<PedalChartProps, 'part' | 'actions'>,
  { width, xOf }: ChartScale,
  near: QuarterSpan,
) =>
  useMemo(
    () => (
      <>
        <HardSpots part={part} passages={part.plan.summary.difficulty.passages} xOf={xOf} height={HEIGHT} />
        {LETTERS.map((letter) => (
          <Lane key={letter} part={part} letter={letter} near={near} xOf={xOf} />
        ))}
        <Bars part={part} near={near} xOf={xOf} height={HEIGHT}>
          <Divider part={part} xOf={xOf} />
        </Bars>
        <Spans part={part} decisions={actions.decisions} xOf={xOf} />
        <Impossible places={chartStops(part)} xOf={xOf} height={HEIGHT} />
      </>
    ),
    [part, actions.decisions, width, near.from, near.until],
  );

interface MovesProps extends Pick<PedalChartProps, 'part' | 'actions' | 'onSelect' | 'onPeek'> {
  readonly scale: ChartScale;
  readonly near: QuarterSpan;
  readonly chosen: readonly number[];
  /** A move that is gone to by key. */
  readonly wanted: number | null;
  readonly drag: MoveDrag | null;
  readonly handlersFor: (move: number) => PointUse['handlers'];
  readonly onKey: (move: number, event: KeyboardEvent) => void;
}

const Moves = ({ part, actions, scale, near, chosen, wanted, drag, ...use }: MovesProps) => {
  const { moves } = part.plan;
  const { xOf, width } = scale;
  const pinned = useMemo(
    () => moves.map((move) => pinOfMove(actions.decisions, move) !== null),
    [moves, actions.decisions],
  );
  const named = useMemo(() => namedMoves(part, xOf), [part, width]);
  const tabStop = chosen[0] ?? 0;
  /** Drawn wherever it is: what is chosen, what the Tab key goes to, what is dragged. */
  const isKept = (move: number): boolean =>
    chosen.includes(move) || move === tabStop || move === wanted || move === drag?.move;
  return moves.map(
    (move, i) =>
      (isKept(i) || isNear(near, moveQuarters(part, move))) && (
        <MovePoint
          key={i}
          {...{ part, xOf, drag }}
          at={i}
          selected={chosen.includes(i)}
          tabStop={i === tabStop}
          pinned={pinned[i]!}
          named={named.has(i)}
          handlers={use.handlersFor(i)}
          onSelect={() => use.onSelect({ kind: 'move', move: i })}
          onPeek={(here) => use.onPeek(here ? { kind: 'move', move: i } : null)}
          onKey={(event) => use.onKey(i, event)}
        />
      ),
  );
};

const chartStops = (part: PlannedPart): readonly ChartedStop[] =>
  stopPlaces(part.plan.findings).map(({ place }) => ({
    quarters: findingQuarters(part, place),
    sentence: place.sentence,
  }));

/** The span in which a move may be made. */
const MoveWindow = ({
  part,
  at,
  xOf,
}: Pick<PedalChartProps, 'part'> & { readonly at: number; readonly xOf: XOf }) => {
  const bounds = boundsOf(part, at);
  return (
    <WindowBar
      from={beginningOf(part, bounds)}
      until={bounds.before?.quarters ?? lengthQuarters(part)}
      moments={allowedFor(part, at).map(({ quarters }) => quarters)}
      lane={laneBox(part.plan.moves[at]!.letter)}
      xOf={xOf}
    />
  );
};

/** What the signs of this chart mean. */
const Signs = () => {
  const { left, right, need } = words.legend;
  return (
    <>
      <span class="key left" /> {left} <span class="key right" /> {right} <span class="key tick" /> {need}{' '}
      <SharedSigns />
    </>
  );
};

/** How the chart is seen, scrolled, dragged and gone through by key. */
const useChart = (props: PedalChartProps) => {
  const { part, index, selection, actions, barInView } = props;
  const pane = useRef<HTMLDivElement>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const [zoom, setZoom] = useState<ChartZoom>(12);
  const scale = useScale(pane, drawing, zoom, lengthQuarters(part));
  const { width, total, xOf, quartersAt } = scale;
  const { moves } = part.plan;
  const chosen = movesOf(selection?.spot ?? null, index);
  const long = useLongChart({ pane, drawing, width, total, height: HEIGHT });
  useHeldTouch(pane, HELD_IN_CHART);
  const focusWatch = useKeptFocus(drawing, part.plan, chosen[0]);
  const dragging = useMoveDrag({
    allowedFor: (move) => allowedFor(part, move),
    quartersOf: (move) => moveQuarters(part, moves[move]!),
    pane,
    quartersAt,
    onDrop: ({ move, to }) => makeAt({ part, actions, at: move }, to),
  });
  useWishedTime(pane, xOf, selection, quartersShown(part, index, selection));
  useFollowedBar(pane, barInView, (bar) => xOf(part.bars[bar]!.onsetQuarters) - INDENT);
  const takeKey = useMoveKeys(props, long.goToMove);
  return { pane, drawing, zoom, setZoom, scale, chosen, ...long, ...dragging, focusWatch, takeKey };
};

type ShownChart = ReturnType<typeof useChart>;

const Tools = ({
  part,
  actions,
  chart: { zoom, scale, setZoom, savePicture },
  span,
  onClose,
}: Pick<PedalChartProps, 'part' | 'actions'> & {
  readonly chart: ShownChart;
  readonly span: BarSpan | null;
  readonly onClose: () => void;
}) =>
  span === null ? (
    <ChartTools zoom={zoom} width={scale.width} onZoom={setZoom} onSave={savePicture}>
      <Signs />
    </ChartTools>
  ) : (
    <SpanTools {...{ part, span, actions, onClose }}>
      <PrintSetting {...{ part, span, actions, onClose }} />
    </SpanTools>
  );

/** What is drawn over the lanes: the stretches of the moves that are looked at, another plan, the music, the moves. */
const OverLanes = ({ chart, ...props }: PedalChartProps & { readonly chart: ShownChart }) => {
  const { part, actions, compared, listening, onSelect, onPeek } = props;
  const { scale, near, chosen, wanted, drag, handlersFor, takeKey } = chart;
  const { xOf, width } = scale;
  return (
    <>
      {(drag === null ? chosen : [drag.move]).map((move) => (
        <MoveWindow key={move} part={part} at={move} xOf={xOf} />
      ))}
      {compared !== null && (
        <OtherMoves compared={compared} xOf={xOf} yOf={({ letter, to }) => levelOf(letter, to)} />
      )}
      {listening !== null && <Playhead {...{ listening, part, width }} indent={INDENT} height={HEIGHT} />}
      <Moves
        {...{ part, actions, scale, near, chosen, wanted, drag, handlersFor, onSelect, onPeek }}
        onKey={takeKey}
      />
    </>
  );
};

/** Seven pedals over the bars: positions as stepped lines, moves as points to be dragged, needs as ticks. */
export const PedalChart = (props: PedalChartProps) => {
  const { part, actions } = props;
  const [span, setSpan] = useState<BarSpan | null>(null);
  const chart = useChart(props);
  const { pane, drawing, scale, drag, focusWatch } = chart;
  const { total, xOf, quartersAt } = scale;
  const lanes = useLanes(props, scale, chart.near);
  return (
    <ChartSection
      heading={words.heading}
      tools={<Tools {...{ part, actions, chart, span }} onClose={() => setSpan(null)} />}
      pane={pane}
    >
      <LaneNames />
      <ChartDrawing
        {...{ drawing, height: HEIGHT, focusWatch }}
        width={total}
        isDragging={drag !== null}
        label={`${words.label(part.bars.length, part.plan.moves.length)}. ${words.keys}`}
      >
        {lanes}
        <BarStrip {...{ part, xOf, quartersAt, span }} height={HEIGHT} onSpan={setSpan} />
        <OverLanes {...props} chart={chart} />
      </ChartDrawing>
    </ChartSection>
  );
};
