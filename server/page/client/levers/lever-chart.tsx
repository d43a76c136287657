import { useRef, useState } from 'preact/hooks';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { STRINGS } from '../../strings/strings.ts';
import { type BarSpan, BarStrip, SpanTools } from '../chart/bar-span.tsx';
import { lengthQuarters } from '../chart/chart-geometry.ts';
import { Playhead } from '../chart/chart-playhead.tsx';
import { ChartPoint, type PointUse } from '../chart/chart-point.tsx';
import { ChartSection, useFollowedBar } from '../chart/chart-section.tsx';
import { type MoveDrag, useMoveDrag } from '../chart/drag/chart-drag.ts';
import { HELD_IN_CHART, useHeldTouch } from '../chart/drag/held-touch.ts';
import { readMoveKey } from '../chart/drag/move-keys.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import { letChangeGo, makeChangeAt } from './lever-actions.tsx';
import {
  Bars,
  LANE,
  Lane,
  LEFT,
  levelOf,
  QUARTER,
  Spans,
  stringNamed,
  stringsOf,
  topOf,
  xOf,
} from './lever-lanes.tsx';
import { allowedForChange, type LeverMove, pinOfChange, quartersOf, stepChange } from './lever-moves.ts';

const words = LEVER_STRINGS.chart;

export interface LeverChartProps {
  readonly part: ReadPart;
  readonly report: LeverAnnotateReport;
  readonly actions: DecisionActions;
  readonly listening: Listening | null;
  /** Index into the moves. */
  readonly selected: number | null;
  /** The bar that the score shows since the user scrolled it: an index; null before. */
  readonly barInView: number | null;
  readonly onSelect: (move: number) => void;
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
  (chart: Chart, drawing: { readonly current: SVGSVGElement | null }) =>
  (event: KeyboardEvent, from: number): void => {
    const { moves } = chart.report;
    const asked = readMoveKey(event, from, moves.length - 1);
    if (asked === null) return;
    if (asked.kind === 'go') {
      drawing.current!.querySelector<SVGGElement>(`[data-move="${asked.to}"]`)?.focus();
    } else if (asked.kind === 'step') {
      const place = stepChange(chart.part, moves, from, asked.direction);
      if (place !== null) makeChangeAt(changeAt(chart, from), { at: place });
    } else letChangeGo(changeAt(chart, from));
    event.preventDefault();
  };

/** A change of a lever as a point in its string's lane. */
const ChangePoint = ({
  move,
  lane,
  isPinned,
  drag,
  ...use
}: PointUse & {
  readonly at: number;
  readonly move: LeverMove;
  readonly lane: number;
  readonly isPinned: boolean;
  readonly drag: MoveDrag | null;
  readonly selected: boolean;
  readonly tabStop: boolean;
}) => {
  const dragged = drag?.move === use.at;
  const pinned = dragged || isPinned;
  return (
    <ChartPoint
      {...use}
      side={move.hand}
      x={xOf(dragged ? drag.to.quarters : quartersOf(move.at))}
      y={levelOf(lane, move.to)}
      lane={{ top: topOf(lane), height: LANE }}
      label={STRINGS.spoken(words.point(move.change, move.hand, move.bar, move.beat, pinned))}
      dragged={dragged}
      pinned={pinned}
    />
  );
};

const Lanes = ({
  part,
  report,
  actions,
  strings,
  height,
}: Chart & { readonly strings: readonly string[]; readonly height: number }) => (
  <>
    {strings.map((string, lane) => (
      <Lane
        key={string}
        string={string}
        lane={lane}
        moves={report.moves}
        isUp={report.levers.some((name) => stringNamed(name) === string)}
        length={lengthQuarters(part)}
      />
    ))}
    <Bars bars={part.bars} height={height} />
    <Spans part={part} decisions={actions.decisions} strings={strings} height={height} />
  </>
);

/** The strings whose levers change as lanes over the bars: up or down as stepped lines, changes as points to be dragged. */
export const LeverChart = (props: LeverChartProps) => {
  const { part, report, actions, listening, selected, barInView, onSelect } = props;
  const { bars } = part;
  const { moves } = report;
  const pane = useRef<HTMLDivElement>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const [span, setSpan] = useState<BarSpan | null>(null);
  const strings = stringsOf(moves, actions.decisions.pins);
  const height = topOf(strings.length) + 4;
  const quartersAt = (clientX: number): number =>
    (clientX - drawing.current!.getBoundingClientRect().left - xOf(0)) / QUARTER;
  useFollowedBar(pane, barInView, (bar) => xOf(bars[bar]!.onsetQuarters) - LEFT);
  useHeldTouch(pane, HELD_IN_CHART);
  const { drag, handlersFor } = useMoveDrag({
    allowedFor: (move) => allowedForChange(part, moves, move),
    quartersOf: (move) => quartersOf(moves[move]!.at),
    pane,
    quartersAt,
    onDrop: ({ move, to }) => makeChangeAt(changeAt(props, move), { at: to }),
  });
  const takeKey = useChangeKeys(props, drawing);
  return (
    <ChartSection
      heading={words.heading}
      tools={
        span === null ? (
          <p class="legend">{moves.length === 0 ? words.none : words.legend}</p>
        ) : (
          <SpanTools part={part} span={span} actions={actions} onClose={() => setSpan(null)} />
        )
      }
      pane={pane}
    >
      {(strings.length > 0 || actions.decisions.pins.length > 0) && (
        // biome-ignore lint/a11y/useSemanticElements: a drawing is no set of form fields
        <svg
          ref={drawing}
          class={drag === null ? 'chart' : 'chart dragging'}
          width={xOf(lengthQuarters(part)) + 12}
          height={height}
          role="group"
          aria-label={`${words.label(bars.length, moves.length)}. ${words.keys}`}
        >
          <Lanes {...{ part, report, actions, strings, height }} />
          <BarStrip {...{ part, height, xOf, quartersAt, span }} onSpan={setSpan} />
          {listening !== null && (
            <Playhead {...{ listening, part, height }} width={QUARTER} indent={xOf(0)} />
          )}
          {moves.map((move, i) => (
            <ChangePoint
              key={i}
              {...{ move, drag }}
              at={i}
              lane={strings.indexOf(move.string)}
              isPinned={pinOfChange(actions.decisions, move) !== null}
              selected={selected === i}
              tabStop={i === (selected ?? 0)}
              handlers={handlersFor(i)}
              onSelect={() => onSelect(i)}
              onKey={(event) => takeKey(event, i)}
            />
          ))}
        </svg>
      )}
    </ChartSection>
  );
};
