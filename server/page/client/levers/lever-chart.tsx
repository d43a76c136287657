import { useRef } from 'preact/hooks';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { LEVER_STRINGS } from '../../lever-strings.ts';
import { STRINGS } from '../../strings.ts';
import { ChartSection, useFollowedBar } from '../chart/chart-section.tsx';
import { ALONG_ROW } from '../controls/step-keys.ts';
import type { BarPlace } from '../planner/planned-part.ts';

const words = LEVER_STRINGS.chart;

type Moves = LeverAnnotateReport['moves'];

/** Lengths in px. */
const LEFT = 44;
const TOP = 22;
const LANE = 24;
const GAP = 4;
const STEP = 6;
const QUARTER = 12;

const quartersOf = (time: string): number => {
  const [num, den = 1] = time.split('/').map(Number);
  return num! / den;
};

const lengthOf = (bars: readonly BarPlace[]): number => {
  const last = bars.at(-1);
  return last === undefined ? 0 : last.onsetQuarters + last.durationQuarters;
};

const xOf = (quarters: number): number => LEFT + 4 + quarters * QUARTER;

/** The strings whose levers change, the highest first. */
const stringsOf = (moves: Moves): string[] => {
  const steps = 'CDEFGAB';
  const height = (name: string): number => 7 * Number(name.slice(1)) + steps.indexOf(name.slice(0, 1));
  return [...new Set(moves.map(({ string }) => string))].sort((a, b) => height(b) - height(a));
};

const topOf = (lane: number): number => TOP + lane * (LANE + GAP);

const levelOf = (lane: number, to: 'up' | 'down'): number =>
  topOf(lane) + LANE / 2 + (to === 'up' ? -STEP : STEP);

const Lane = ({
  string,
  lane,
  moves,
  length,
}: {
  readonly string: string;
  readonly lane: number;
  readonly moves: Moves;
  readonly length: number;
}) => {
  const own = moves.filter((move) => move.string === string);
  const start = own[0]!.to === 'up' ? 'down' : 'up';
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

export interface LeverChartProps {
  readonly bars: readonly BarPlace[];
  readonly moves: Moves;
  /** Index into the moves. */
  readonly selected: number | null;
  /** The bar that the score shows since the user scrolled it: an index; null before. */
  readonly barInView: number | null;
  readonly onSelect: (move: number) => void;
}

/** The strings whose levers change as lanes over the bars: up or down as stepped lines, changes as points. */
export const LeverChart = ({ bars, moves, selected, barInView, onSelect }: LeverChartProps) => {
  const pane = useRef<HTMLDivElement>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const strings = stringsOf(moves);
  const height = topOf(strings.length) + 4;
  const length = lengthOf(bars);
  const width = xOf(length) + 12;
  useFollowedBar(pane, barInView, (bar) => xOf(bars[bar]!.onsetQuarters) - LEFT);
  const goTo = (event: KeyboardEvent, from: number): void => {
    const to = ALONG_ROW[event.key]?.(from, moves.length - 1);
    if (to === undefined || moves[to] === undefined) return;
    event.preventDefault();
    drawing.current!.querySelector<SVGGElement>(`[data-move="${to}"]`)?.focus();
  };
  return (
    <ChartSection
      heading={words.heading}
      tools={<p class="legend">{moves.length === 0 ? words.none : words.legend}</p>}
      pane={pane}
    >
      {moves.length > 0 && (
        // biome-ignore lint/a11y/useSemanticElements: a drawing is no set of form fields
        <svg
          ref={drawing}
          class="chart"
          width={width}
          height={height}
          role="group"
          aria-label={words.label(bars.length, moves.length)}
        >
          {strings.map((string, lane) => (
            <Lane key={string} string={string} lane={lane} moves={moves} length={length} />
          ))}
          <Bars bars={bars} height={height} />
          {moves.map((move, i) => {
            const x = xOf(quartersOf(move.at));
            const y = levelOf(strings.indexOf(move.string), move.to);
            const label = words.point(move.change, move.hand, move.bar, move.beat);
            return (
              // biome-ignore lint/a11y/useSemanticElements: a shape of a drawing can be no button element
              <g
                key={i}
                class={`point ${move.hand}${selected === i ? ' selected' : ''}`}
                role="button"
                tabindex={i === (selected ?? 0) ? 0 : -1}
                aria-label={STRINGS.spoken(label)}
                aria-pressed={selected === i}
                data-move={i}
                onClick={() => onSelect(i)}
                onFocus={() => onSelect(i)}
                onKeyDown={(event) => goTo(event, i)}
              >
                {move.hand === 'left' ? (
                  <rect x={x - 5} y={y - 5} width={10} height={10} />
                ) : (
                  <circle cx={x} cy={y} r={5.5} />
                )}
              </g>
            );
          })}
        </svg>
      )}
    </ChartSection>
  );
};
