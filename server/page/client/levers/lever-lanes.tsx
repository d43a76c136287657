import { type Decisions, readString, stepOf } from '../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../strings/lever-strings.ts';
import { lengthQuarters } from '../chart/chart-geometry.ts';
import { quartersOfPlace } from '../decisions/places.ts';
import type { BarPlace, ReadPart } from '../planner/planned-part.ts';
import { type LeverMoves, quartersOf } from './lever-moves.ts';

/** Lengths in px. */
export const LEFT = 44;
const TOP = 22;
export const LANE = 24;
const GAP = 4;
const STEP = 6;
export const QUARTER = 12;

/** The string of a pitch: `F4` of `F♯4`. */
export const stringNamed = (pitch: string): string => `${pitch.slice(0, 1)}${/\d+$/.exec(pitch)?.[0] ?? ''}`;

export const xOf = (quarters: number): number => LEFT + 4 + quarters * QUARTER;

/** The strings whose levers change or are held, the highest first. */
export const stringsOf = (moves: LeverMoves, pins: Decisions['pins']): string[] => {
  const height = (name: string): number => stepOf(readString(name)!);
  const held = pins.flatMap((pin) => (pin.kind === 'lever-position' ? [pin.lever] : []));
  return [...new Set([...moves.map(({ string }) => string), ...held])].sort((a, b) => height(b) - height(a));
};

export const topOf = (lane: number): number => TOP + lane * (LANE + GAP);

export const levelOf = (lane: number, to: 'up' | 'down'): number =>
  topOf(lane) + LANE / 2 + (to === 'up' ? -STEP : STEP);

export const Lane = ({
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

export const Bars = ({ bars, height }: { readonly bars: readonly BarPlace[]; readonly height: number }) => (
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

/** What the user fixed, as far as it spans time: where no lever is set, and where one stays. */
export const Spans = ({
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
