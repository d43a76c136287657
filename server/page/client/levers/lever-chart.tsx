import { useRef, useState } from 'preact/hooks';
import { type Decisions, readString, stepOf } from '../../../../engine/index.ts';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../lever-strings.ts';
import { STRINGS } from '../../strings.ts';
import { type BarSpan, BarStrip, SpanTools } from '../chart/bar-span.tsx';
import { lengthQuarters } from '../chart/chart-geometry.ts';
import { Playhead } from '../chart/chart-playhead.tsx';
import { ChartSection, useFollowedBar } from '../chart/chart-section.tsx';
import { useMoveDrag } from '../chart/drag/chart-drag.ts';
import { useHeldTouch } from '../chart/drag/held-touch.ts';
import { readMoveKey } from '../chart/drag/move-keys.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { quartersOfPlace } from '../decisions/places.ts';
import type { BarPlace, ReadPart } from '../planner/planned-part.ts';
import type { Listening } from '../playback/listening.ts';
import { letChangeGo, makeChangeAt } from './lever-actions.tsx';
import {
  allowedForChange,
  type LeverMove,
  type LeverMoves,
  pinOfChange,
  quartersOf,
  stepChange,
} from './lever-moves.ts';

const words = LEVER_STRINGS.chart;

/** Lengths in px. */
const LEFT = 44;
const TOP = 22;
const LANE = 24;
const GAP = 4;
const STEP = 6;
const QUARTER = 12;

/** Px from a point within which it is taken. */
const GRIP = 12;

/** The string of a pitch: `F4` of `F♯4`. */
const stringNamed = (pitch: string): string => `${pitch.slice(0, 1)}${/\d+$/.exec(pitch)?.[0] ?? ''}`;

const xOf = (quarters: number): number => LEFT + 4 + quarters * QUARTER;

/** The strings whose levers change or are held, the highest first. */
const stringsOf = (moves: LeverMoves, pins: Decisions['pins']): string[] => {
  const height = (name: string): number => stepOf(readString(name)!);
  const held = pins.flatMap((pin) => (pin.kind === 'lever-position' ? [pin.lever] : []));
  return [...new Set([...moves.map(({ string }) => string), ...held])].sort((a, b) => height(b) - height(a));
};

const topOf = (lane: number): number => TOP + lane * (LANE + GAP);

const levelOf = (lane: number, to: 'up' | 'down'): number =>
  topOf(lane) + LANE / 2 + (to === 'up' ? -STEP : STEP);

const Lane = ({
  string,
  lane,
  moves,
  isUp,
  length,
}: {
  readonly string: string;
  readonly lane: number;
  readonly moves: LeverMoves;
  /** At the start. */
  readonly isUp: boolean;
  readonly length: number;
}) => {
  const own = moves.filter((move) => move.string === string);
  const start = own[0] === undefined ? (isUp ? 'up' : 'down') : own[0].to === 'up' ? 'down' : 'up';
  const course = own.map(({ at, to }) => `H${xOf(quartersOf(at))}V${levelOf(lane, to)}`).join('');
  return (
    <g>
      <rect class="lane" x={LEFT} y={topOf(lane)} width={xOf(length) - LEFT} height={LANE} />
      <text class="letter" x={LEFT - 8} y={topOf(lane) + LANE / 2 + 5} text-anchor="end">
        {string}
      </text>
      <path class="course" d={`M${LEFT} ${levelOf(lane, start)}${course}H${xOf(length)}`} />
    </g>
  );
};

const Bars = ({ bars, height }: { readonly bars: readonly BarPlace[]; readonly height: number }) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of lines takes no focus
  <g aria-hidden="true">
    <path class="bar" d={bars.map(({ onsetQuarters }) => `M${xOf(onsetQuarters)} 18V${height}`).join('')} />
    {bars
      .filter((_, i) => i % 2 === 0)
      .map(({ id, number, onsetQuarters }) => (
        <text key={id} class="number" x={xOf(onsetQuarters) + 2} y={13}>
          {number}
        </text>
      ))}
  </g>
);

/** A square for the left hand, a disc for the right. */
const shapeOf = (hand: LeverMove['hand'], x: number, y: number, size: number, className?: string) =>
  hand === 'left' ? (
    <rect class={className} x={x - size} y={y - size} width={2 * size} height={2 * size} />
  ) : (
    <circle class={className} cx={x} cy={y} r={size + 0.5} />
  );

/** What the user fixed, as far as it spans time: where no lever is set, and where one stays. */
const Spans = ({
  part,
  decisions,
  strings,
  height,
}: {
  readonly part: ReadPart;
  readonly decisions: Decisions;
  readonly strings: readonly string[];
  readonly height: number;
}) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of shapes takes no focus
  <g aria-hidden="true">
    {decisions.pins.map((pin, i) => {
      if (pin.kind !== 'forbid' && pin.kind !== 'lever-position') return null;
      const from = xOf(quartersOfPlace(part, pin.from));
      const until = xOf(pin.until === null ? lengthQuarters(part) : quartersOfPlace(part, pin.until));
      const width = Math.max(2, until - from);
      if (pin.kind === 'forbid') {
        return <rect key={i} class="forbidden" x={from} y={18} width={width} height={height - 18} />;
      }
      const lane = strings.indexOf(pin.lever);
      const [top, y] = [topOf(lane), levelOf(lane, pin.to)];
      return (
        <g key={i} class="kept">
          <title>{LEVER_STRINGS.detail.to(pin.lever, pin.to)}</title>
          <path d={`M${from} ${top}v${LANE}m0 ${y - top - LANE}h${width}m0 ${top - y}v${LANE}`} />
        </g>
      );
    })}
  </g>
);

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

/** The strings whose levers change as lanes over the bars: up or down as stepped lines, changes as points to be dragged. */
export const LeverChart = ({
  part,
  report,
  actions,
  listening,
  selected,
  barInView,
  onSelect,
}: LeverChartProps) => {
  const { bars } = part;
  const { moves, levers } = report;
  const pane = useRef<HTMLDivElement>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const [span, setSpan] = useState<BarSpan | null>(null);
  const strings = stringsOf(moves, actions.decisions.pins);
  const height = topOf(strings.length) + 4;
  const length = lengthQuarters(part);
  const width = xOf(length) + 12;
  const quartersAt = (clientX: number): number =>
    (clientX - drawing.current!.getBoundingClientRect().left - xOf(0)) / QUARTER;
  const changeAt = (at: number) => ({ part, moves, actions, at });
  useFollowedBar(pane, barInView, (bar) => xOf(bars[bar]!.onsetQuarters) - LEFT);
  useHeldTouch(pane);
  const { drag, handlersFor } = useMoveDrag({
    allowedFor: (move) => allowedForChange(part, moves, move),
    quartersOf: (move) => quartersOf(moves[move]!.at),
    pane,
    quartersAt,
    onDrop: ({ move, to }) => makeChangeAt(changeAt(move), { at: to }),
  });
  const takeKey = (event: KeyboardEvent, from: number): void => {
    const asked = readMoveKey(event, from, moves.length - 1);
    if (asked === null) return;
    if (asked.kind === 'go') {
      drawing.current!.querySelector<SVGGElement>(`[data-move="${asked.to}"]`)?.focus();
    } else if (asked.kind === 'step') {
      const place = stepChange(part, moves, from, asked.direction);
      if (place !== null) makeChangeAt(changeAt(from), { at: place });
    } else letChangeGo(changeAt(from));
    event.preventDefault();
  };
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
          width={width}
          height={height}
          role="group"
          aria-label={`${words.label(bars.length, moves.length)}. ${words.keys}`}
        >
          {strings.map((string, lane) => (
            <Lane
              key={string}
              string={string}
              lane={lane}
              moves={moves}
              isUp={levers.some((name) => stringNamed(name) === string)}
              length={length}
            />
          ))}
          <Bars bars={bars} height={height} />
          <Spans part={part} decisions={actions.decisions} strings={strings} height={height} />
          <BarStrip
            part={part}
            height={height}
            xOf={xOf}
            quartersAt={quartersAt}
            span={span}
            onSpan={setSpan}
          />
          {listening !== null && (
            <Playhead listening={listening} part={part} width={QUARTER} indent={xOf(0)} height={height} />
          )}
          {moves.map((move, i) => {
            const dragged = drag?.move === i ? drag : null;
            const pinned = dragged !== null || pinOfChange(actions.decisions, move) !== null;
            const x = xOf(dragged?.to.quarters ?? quartersOf(move.at));
            const lane = strings.indexOf(move.string);
            const y = levelOf(lane, move.to);
            const label = words.point(move.change, move.hand, move.bar, move.beat, pinned);
            const classes = [
              'point',
              move.hand,
              selected === i ? 'selected' : '',
              dragged === null ? '' : 'dragged',
            ];
            return (
              // biome-ignore lint/a11y/useSemanticElements: a shape of a drawing can be no button element
              <g
                {...handlersFor(i)}
                key={i}
                class={classes.filter((each) => each !== '').join(' ')}
                role="button"
                tabindex={i === (selected ?? 0) ? 0 : -1}
                aria-label={STRINGS.spoken(label)}
                aria-pressed={selected === i}
                data-move={i}
                onClick={() => onSelect(i)}
                onFocus={() => onSelect(i)}
                onKeyDown={(event) => takeKey(event, i)}
              >
                <rect class="grip" x={x - GRIP} y={topOf(lane)} width={2 * GRIP} height={LANE} />
                {pinned && shapeOf(move.hand, x, y, 8, 'frame')}
                {shapeOf(move.hand, x, y, pinned ? 4 : 5)}
              </g>
            );
          })}
        </svg>
      )}
    </ChartSection>
  );
};
