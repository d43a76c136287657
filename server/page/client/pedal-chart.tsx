import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { formatChange } from '../../../engine/harp/setting.ts';
import { LETTERS, type Letter } from '../../../engine/music/pitch.ts';
import { rationalKey, toNumber } from '../../../engine/music/rational.ts';
import type { Move } from '../../../engine/plan/model.ts';
import { STRINGS } from '../strings.ts';
import {
  DIVIDER_Y,
  findingQuarters,
  HEIGHT,
  LEFT,
  laneBox,
  lengthQuarters,
  levelOf,
  needTicks,
  stepPath,
} from './chart-geometry.ts';
import { pictureOf } from './chart-picture.ts';
import type { PageIndex } from './page-markings.ts';
import type { PlannedPart } from './planned-part.ts';
import { saveFile } from './save-file.ts';
import { scrollBehaviour } from './scrolling.ts';
import { movesOf } from './selected-moves.ts';
import type { Selection, Spot } from './spot.ts';

const words = STRINGS.chart;

/** Px of a quarter note. */
const WIDTHS = [3, 6, 12, 24, 48] as const;

type ChartWidth = (typeof WIDTHS)[number];

type XOf = (quarters: number) => number;

const Lane = ({
  part,
  letter,
  xOf,
}: {
  readonly part: PlannedPart;
  readonly letter: Letter;
  readonly xOf: XOf;
}) => {
  const { top, height } = laneBox(letter);
  return (
    <g>
      <rect class="lane" x={LEFT} y={top} width={xOf(lengthQuarters(part)) - LEFT} height={height} />
      <text class="letter" x={LEFT - 12} y={top + height / 2 + 5} text-anchor="end">
        {letter}
      </text>
      <path class="need" d={needTicks(part, letter, xOf)} />
      <path class="course" d={stepPath(part, letter, xOf)} />
    </g>
  );
};

/** Bar lines, and numbers as far apart as they can be read. */
const Bars = ({ part, xOf }: { readonly part: PlannedPart; readonly xOf: XOf }) => {
  let written = Number.NEGATIVE_INFINITY;
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of lines takes no focus
    <g aria-hidden="true">
      <path
        class="bar"
        d={part.bars.map(({ onsetQuarters }) => `M${xOf(onsetQuarters)} 18V${HEIGHT}`).join('')}
      />
      <path class="divider" d={`M${LEFT} ${DIVIDER_Y}H${xOf(lengthQuarters(part))}`} />
      {part.bars.map(({ number, onsetQuarters }, i) => {
        const x = xOf(onsetQuarters);
        if (x - written < 40) return null;
        written = x;
        return (
          <text key={i} class="number" x={x + 2} y={13}>
            {number}
          </text>
        );
      })}
    </g>
  );
};

const Impossible = ({ part, xOf }: { readonly part: PlannedPart; readonly xOf: XOf }) => (
  <>
    {part.plan.findings.map((finding, i) => {
      if (finding.severity !== 'stop') return null;
      const x = xOf(findingQuarters(part, finding));
      return (
        // biome-ignore lint/a11y/noInteractiveElementToNoninteractiveRole: a group of shapes is not interactive
        <g key={i} class="impossible" role="img" aria-label={words.impossible(finding.sentence)}>
          <rect x={x - 5} y={18} width={10} height={HEIGHT - 18} />
          <path d={`M${x - 4} 18l8 8m0 -8l-8 8`} />
        </g>
      );
    })}
  </>
);

const labelOf = (part: PlannedPart, move: Move): string =>
  STRINGS.spoken(
    `${formatChange(move.letter, move.to)}, ${STRINGS.foot[move.foot]}, ${STRINGS.detail.at(part.bars[move.bar]!.number, rationalKey(move.beat))}`,
  );

/** Left foot square, right foot round: told apart without colour. */
const Point = ({ move, x }: { readonly move: Move; readonly x: number }) => {
  const y = levelOf(move.letter, move.to);
  return move.foot === 'left' ? (
    <rect x={x - 5} y={y - 5} width={10} height={10} />
  ) : (
    <circle cx={x} cy={y} r={5.5} />
  );
};

/** The span in which the move may be made. */
const WindowBar = ({
  part,
  move,
  xOf,
}: {
  readonly part: PlannedPart;
  readonly move: Move;
  readonly xOf: XOf;
}) => {
  const { after, before } = move.window;
  const from = after === null ? 0 : toNumber(after.onset);
  const until = before === null ? lengthQuarters(part) : toNumber(before.onset);
  const { top, height } = laneBox(move.letter);
  return (
    <rect class="window" x={xOf(from)} y={top} width={Math.max(2, xOf(until) - xOf(from))} height={height} />
  );
};

const Legend = () => (
  <p class="legend">
    <span class="key left" /> {words.legend.left} <span class="key right" /> {words.legend.right}{' '}
    <span class="key tick" /> {words.legend.need} <span class="key cross">✕</span> {words.legend.stop}{' '}
    <span class="levels">{words.legend.levels}</span>
  </p>
);

export interface PedalChartProps {
  readonly part: PlannedPart;
  readonly index: PageIndex | null;
  readonly selection: Selection | null;
  readonly onSelect: (spot: Spot) => void;
  readonly onPeek: (spot: Spot | null) => void;
}

const KEYS: Readonly<Record<string, (at: number, last: number) => number>> = {
  ArrowRight: (at) => at + 1,
  ArrowLeft: (at) => at - 1,
  Home: () => 0,
  End: (_at, last) => last,
};

/** Where the chart is to scroll: to the selection of another view. */
const quartersShown = (
  part: PlannedPart,
  index: PageIndex | null,
  selection: Selection | null,
): number | null => {
  if (selection === null || selection.origin === 'chart') return null;
  const { spot } = selection;
  if (spot.kind === 'finding') return findingQuarters(part, part.plan.findings[spot.finding]!);
  const [move] = movesOf(spot, index);
  if (move !== undefined) return toNumber(part.plan.moves[move]!.at);
  const marking = spot.kind === 'marking' ? index?.markings.find(({ id }) => id === spot.id) : undefined;
  return marking?.onsetQuarters ?? null;
};

/** Seven pedals over the bars: positions as stepped lines, moves as points, needs as ticks. */
export const PedalChart = ({ part, index, selection, onSelect, onPeek }: PedalChartProps) => {
  const [width, setWidth] = useState<ChartWidth>(12);
  const pane = useRef<HTMLDivElement>(null);
  const drawing = useRef<SVGSVGElement>(null);
  const xOf: XOf = (quarters) => LEFT + 4 + quarters * width;
  const { moves } = part.plan;
  const chosen = movesOf(selection?.spot ?? null, index);
  const total = xOf(lengthQuarters(part)) + 12;

  useLayoutEffect(() => {
    const quarters = quartersShown(part, index, selection);
    if (quarters === null) return;
    const { clientWidth } = pane.current!;
    pane.current!.scrollTo({ left: xOf(quarters) - clientWidth / 2, behavior: scrollBehaviour() });
  }, [selection, index]);

  const lanes = useMemo(
    () => (
      <>
        {LETTERS.map((letter) => (
          <Lane key={letter} part={part} letter={letter} xOf={xOf} />
        ))}
        <Bars part={part} xOf={xOf} />
        <Impossible part={part} xOf={xOf} />
      </>
    ),
    [part, width],
  );

  const step = (by: number): void => setWidth((now) => WIDTHS[WIDTHS.indexOf(now) + by] ?? now);
  const takeKey = (at: number, event: KeyboardEvent): void => {
    const next = KEYS[event.key]?.(at, moves.length - 1);
    if (next === undefined) return;
    event.preventDefault();
    drawing.current?.querySelector<SVGElement>(`[data-move="${next}"]`)?.focus();
  };
  return (
    <section class="pedals">
      <h2>{words.heading}</h2>
      <div class="tools">
        <Legend />
        <span class="gap" />
        <button
          type="button"
          aria-label={words.narrower}
          disabled={width === WIDTHS[0]}
          onClick={() => step(-1)}
        >
          −
        </button>
        <button
          type="button"
          aria-label={words.wider}
          disabled={width === WIDTHS.at(-1)}
          onClick={() => step(1)}
        >
          +
        </button>
        <button
          type="button"
          onClick={() => saveFile(pictureOf(drawing.current!, total, HEIGHT), `${words.heading}.svg`)}
        >
          {words.save}
        </button>
      </div>
      <section
        ref={pane}
        class="chart-pane"
        aria-label={words.heading}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by key (WCAG 2.1.1)
        tabIndex={0}
      >
        {/* biome-ignore lint/a11y/useSemanticElements: a drawing is no fieldset */}
        <svg
          ref={drawing}
          class="chart"
          width={total}
          height={HEIGHT}
          role="group"
          aria-label={`${words.label(part.bars.length, moves.length)}. ${words.keys}`}
        >
          {lanes}
          {chosen.map((move) => (
            <WindowBar key={move} part={part} move={moves[move]!} xOf={xOf} />
          ))}
          {moves.map((move, i) => (
            // biome-ignore lint/a11y/useSemanticElements: a drawing can hold no button
            <g
              key={i}
              data-move={i}
              class={`point ${move.foot}${chosen.includes(i) ? ' selected' : ''}`}
              role="button"
              aria-pressed={chosen.includes(i)}
              aria-label={labelOf(part, move)}
              tabIndex={i === (chosen[0] ?? 0) ? 0 : -1}
              onFocus={() => onSelect({ kind: 'move', move: i })}
              onClick={() => onSelect({ kind: 'move', move: i })}
              onKeyDown={(event) => takeKey(i, event)}
              onPointerEnter={() => onPeek({ kind: 'move', move: i })}
              onPointerLeave={() => onPeek(null)}
            >
              <Point move={move} x={xOf(toNumber(move.at))} />
            </g>
          ))}
        </svg>
      </section>
    </section>
  );
};
