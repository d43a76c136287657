import { useMemo, useRef, useState } from 'preact/hooks';
import { stopPlaces } from '../../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { STRINGS } from '../../../strings/strings.ts';
import { type BarSpan, BarStrip, SpanTools } from '../../chart/bar-span.tsx';
import { ChartDrawing } from '../../chart/chart-drawing.tsx';
import { Playhead } from '../../chart/chart-playhead.tsx';
import { ChartSection, useFollowedBar, useWishedTime } from '../../chart/chart-section.tsx';
import { ChartTools, type ChartZoom, SharedSigns } from '../../chart/chart-tools.tsx';
import { useMoveDrag } from '../../chart/drag/chart-drag.ts';
import { HELD_IN_CHART, useHeldTouch } from '../../chart/drag/held-touch.ts';
import { readMoveKey } from '../../chart/drag/move-keys.ts';
import { lengthQuarters, type XOf } from '../../chart/geometry/chart-geometry.ts';
import { type ChartScale, INDENT, useScale } from '../../chart/geometry/chart-scale.ts';
import type { QuarterSpan } from '../../chart/geometry/chart-window.ts';
import { useKeptFocus, useLongChart } from '../../chart/geometry/long-chart.ts';
import {
  Bars,
  type ChartedStop,
  type GradedBars,
  HardSpots,
  Impossible,
  WindowBar,
} from '../../chart/lanes/chart-lanes.tsx';
import { OtherMoves } from '../../chart/lanes/other-moves.tsx';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { useTrouble } from '../../decisions/history/tried-out.ts';
import { beginningOf } from '../../planner/move-bounds.ts';
import type { ReadPart } from '../../planner/planned-part.ts';
import type { Listening } from '../../playback/listening.ts';
import type { ComparedPlan } from '../../variants/compared-plan.ts';
import {
  allowedForChange,
  boundsOfChange,
  changeQuarters,
  type LeverMove,
  quartersOf,
  stepChange,
} from '../lever-moves.ts';
import type { LeverLooking } from '../lever-selection.ts';
import { letChangeGo, makeChangeAt, tryChangesAt } from '../side/lever-actions.tsx';
import {
  heightOf,
  Lane,
  LaneNames,
  laneBox,
  levelOf,
  Spans,
  stringNamed,
  stringsOf,
} from './lever-lanes.tsx';
import { LeverPoints } from './lever-points.tsx';

const words = LEVER_STRINGS.chart;

export interface LeverChartProps {
  readonly part: ReadPart;
  readonly report: LeverPlanReport;
  readonly actions: DecisionActions;
  readonly listening: Listening | null;
  readonly looking: LeverLooking;
  /** Another plan, whose changes are shown too. */
  readonly compared: ComparedPlan<LeverMove> | null;
  /** The bar that the score shows since the user scrolled it: an index; null before. */
  readonly barInView: number | null;
}

type Chart = Pick<LeverChartProps, 'part' | 'report' | 'actions'>;

const changeAt = ({ part, report, actions }: Chart, at: number) => ({
  part,
  moves: report.moves,
  actions,
  at,
});

/** Steps, frees and goes along the changes by key. */
const useChangeKeys =
  (chart: Chart, goToChange: (change: number) => void) =>
  (event: KeyboardEvent, from: number): void => {
    const { moves } = chart.report;
    const asked = readMoveKey(event, from, moves.length - 1);
    if (asked === null) return;
    if (asked.kind === 'go') goToChange(asked.to);
    else if (asked.kind === 'step') {
      const place = stepChange(chart.part, moves, from, asked.direction);
      if (place !== null) makeChangeAt(changeAt(chart, from), { at: place });
    } else letChangeGo(changeAt(chart, from));
    event.preventDefault();
  };

/** The passages of the part by the indices of their bars, which their names tell apart. */
const gradedBars = ({ bars }: ReadPart, { summary }: LeverPlanReport): readonly GradedBars[] => {
  const indexOf = new Map(bars.map(({ name }, i) => [name, i]));
  return summary.difficulty.passages.map((passage) => ({
    ...passage,
    from: indexOf.get(passage.fromName)!,
    until: indexOf.get(passage.untilName)!,
  }));
};

const chartStops = ({ bars }: ReadPart, { findings }: LeverPlanReport): readonly ChartedStop[] =>
  stopPlaces(findings).map(({ place: { barIndex, beat, sentence } }) => {
    const { onsetQuarters, beatQuarters } = bars[barIndex]!;
    return { quarters: onsetQuarters + (quartersOf(beat) - 1) * beatQuarters, sentence };
  });

/** What lies under the changes: drawn again only when the plan, the scale or what is near changes. */
const useLanes = (
  { part, report, actions }: Chart,
  strings: readonly string[],
  { width, xOf }: ChartScale,
  near: QuarterSpan,
) =>
  useMemo(() => {
    const height = heightOf(strings);
    return (
      <>
        <HardSpots part={part} passages={gradedBars(part, report)} xOf={xOf} height={height} />
        {strings.map((string, lane) => (
          <Lane
            key={string}
            {...{ part, string, lane, xOf }}
            moves={report.moves}
            isUp={report.levers.some((name) => stringNamed(name) === string)}
          />
        ))}
        <Bars part={part} near={near} xOf={xOf} height={height} />
        <Spans part={part} decisions={actions.decisions} strings={strings} xOf={xOf} />
        <Impossible places={chartStops(part, report)} xOf={xOf} height={height} />
      </>
    );
  }, [part, report, actions.decisions, width, near.from, near.until]);

/** The span in which a change may be made. */
const ChangeWindow = ({
  part,
  report: { moves },
  at,
  lane,
  xOf,
}: Pick<Chart, 'part' | 'report'> & { readonly at: number; readonly lane: number; readonly xOf: XOf }) => {
  const bounds = boundsOfChange(moves, at);
  return (
    <WindowBar
      from={beginningOf(part, bounds)}
      until={bounds.before?.quarters ?? lengthQuarters(part)}
      moments={allowedForChange(part, moves, at).map(({ quarters }) => quarters)}
      lane={laneBox(lane)}
      xOf={xOf}
    />
  );
};

/** What the signs of this chart mean. */
const Signs = () => (
  <>
    <span class="key left" /> {words.legend.left} <span class="key right" /> {words.legend.right}{' '}
    {words.legend.up} <SharedSigns />
  </>
);

/** How the chart is seen, scrolled, dragged and gone through by key. */
const useChart = (props: LeverChartProps, strings: readonly string[]) => {
  const { part, report, actions, looking } = props;
  const { moves } = report;
  const pane = useRef<HTMLDivElement>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const [zoom, setZoom] = useState<ChartZoom>(12);
  const scale = useScale(pane, drawing, zoom, lengthQuarters(part));
  const { width, total, xOf, quartersAt } = scale;
  const long = useLongChart({ pane, drawing, width, total, height: heightOf(strings) });
  useWishedTime(pane, xOf, looking.chartWish, looking.chartWish?.quarters ?? null);
  useFollowedBar(pane, props.barInView, (bar) => xOf(part.bars[bar]!.onsetQuarters) - INDENT);
  useHeldTouch(pane, HELD_IN_CHART);
  const focusWatch = useKeptFocus(drawing, report, looking.move ?? undefined);
  const dragging = useMoveDrag({
    allowedFor: (move) => allowedForChange(part, moves, move),
    quartersOf: (move) => changeQuarters(part, moves[move]!),
    pane,
    quartersAt,
    onDrop: ({ move, to }) => makeChangeAt(changeAt(props, move), { at: to }),
  });
  const { drag } = dragging;
  const trouble = useTrouble(drag?.to ?? null, (onTold) => {
    if (drag !== null) tryChangesAt({ part, moves, actions }, [drag.move], drag.to, onTold);
  });
  const takeKey = useChangeKeys(props, long.goToMove);
  return { pane, drawing, zoom, setZoom, scale, ...long, ...dragging, focusWatch, trouble, takeKey };
};

type ShownChart = ReturnType<typeof useChart>;

const Tools = ({
  part,
  actions,
  chart: { zoom, scale, setZoom, savePicture, trouble },
  span,
  onClose,
}: Pick<LeverChartProps, 'part' | 'actions'> & {
  readonly chart: ShownChart;
  readonly span: BarSpan | null;
  readonly onClose: () => void;
}) => {
  if (trouble.length > 0) return <p class="stop">{STRINGS.score.trouble(trouble)}</p>;
  if (span !== null) return <SpanTools {...{ part, span, actions, onClose }} />;
  return (
    <ChartTools zoom={zoom} width={scale.width} onZoom={setZoom} onSave={savePicture}>
      <Signs />
    </ChartTools>
  );
};

/** What is drawn over the lanes: the stretch of the change that is looked at, another plan, the music, the changes. */
const OverLanes = ({
  part,
  report,
  actions,
  looking,
  compared,
  listening,
  strings,
  chart,
}: LeverChartProps & { readonly strings: readonly string[]; readonly chart: ShownChart }) => {
  const { near, wanted, drag, handlersFor, scale } = chart;
  const { xOf, width } = scale;
  const held = drag?.move ?? looking.move;
  const laneOf = (string: string): number => strings.indexOf(string);
  return (
    <>
      {held !== null && (
        <ChangeWindow {...{ part, report, xOf }} at={held} lane={laneOf(report.moves[held]!.string)} />
      )}
      {compared !== null && (
        <OtherMoves
          compared={compared}
          xOf={xOf}
          yOf={({ string, to }) => (strings.includes(string) ? levelOf(laneOf(string), to) : null)}
        />
      )}
      {listening !== null && (
        <Playhead {...{ listening, part, width }} indent={INDENT} height={heightOf(strings)} />
      )}
      <LeverPoints
        {...{ part, report, actions, looking, strings, xOf, near, wanted, drag, handlersFor }}
        onKey={chart.takeKey}
      />
    </>
  );
};

/** The strings whose levers change as lanes over the bars: up or down as stepped lines, changes as points to be dragged. */
export const LeverChart = (props: LeverChartProps) => {
  const { part, report, actions } = props;
  const { moves } = report;
  const [span, setSpan] = useState<BarSpan | null>(null);
  const strings = useMemo(() => stringsOf(moves, actions.decisions.pins), [moves, actions.decisions.pins]);
  const height = heightOf(strings);
  const chart = useChart(props, strings);
  const { pane, drawing, scale, drag, focusWatch } = chart;
  const { total, xOf, quartersAt } = scale;
  const lanes = useLanes(props, strings, scale, chart.near);
  const tools = <Tools {...{ part, actions, chart, span }} onClose={() => setSpan(null)} />;
  return (
    <ChartSection
      heading={words.heading}
      tools={strings.length === 0 ? <p class="legend">{words.none}</p> : tools}
      pane={pane}
    >
      {strings.length > 0 && (
        <>
          <LaneNames strings={strings} />
          <ChartDrawing
            {...{ drawing, height, focusWatch }}
            width={total}
            isDragging={drag !== null}
            label={`${words.label(part.bars.length, moves.length)}. ${words.keys}`}
          >
            {lanes}
            <BarStrip {...{ part, height, xOf, quartersAt, span }} onSpan={setSpan} />
            <OverLanes {...props} strings={strings} chart={chart} />
          </ChartDrawing>
        </>
      )}
    </ChartSection>
  );
};
