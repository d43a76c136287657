import { type Decisions, readString, stepOf } from '../../../../../engine/index.ts';
import { LEVER_STRINGS } from '../../../strings/lever-strings.ts';
import { LEFT, lengthQuarters, type XOf } from '../../chart/geometry/chart-geometry.ts';
import { LaneNamesColumn } from '../../chart/lanes/lane-names.tsx';
import { quartersOfPlace } from '../../decisions/places.ts';
import type { ReadPart } from '../../planner/planned-part.ts';
import { changeQuarters, type LeverMoves } from '../lever-moves.ts';

/** Lengths in px. */
const TOP = 28;
const LANE = 24;
const GAP = 4;
const STEP = 6;

/** The string of a pitch: `F4` of `F♯4`. */
export const stringNamed = (pitch: string): string => `${pitch.slice(0, 1)}${/\d+$/.exec(pitch)?.[0] ?? ''}`;

/** The strings whose levers change or are held, the highest first. */
export const stringsOf = (moves: LeverMoves, pins: Decisions['pins']): string[] => {
  const height = (name: string): number => stepOf(readString(name)!);
  const held = pins.flatMap((pin) => (pin.kind === 'lever-position' ? [pin.lever] : []));
  return [...new Set([...moves.map(({ string }) => string), ...held])].sort((a, b) => height(b) - height(a));
};

const topOf = (lane: number): number => TOP + lane * (LANE + GAP);

/** Of a chart of so many strings. */
export const heightOf = (strings: readonly string[]): number => topOf(strings.length) + 4;

export const laneBox = (lane: number): { readonly top: number; readonly height: number } => ({
  top: topOf(lane),
  height: LANE,
});

export const levelOf = (lane: number, to: 'up' | 'down'): number =>
  topOf(lane) + LANE / 2 + (to === 'up' ? -STEP : STEP);

export const Lane = ({
  part,
  string,
  lane,
  moves,
  isUp,
  xOf,
}: {
  readonly part: ReadPart;
  readonly string: string;
  readonly lane: number;
  readonly moves: LeverMoves;
  /** At the start. */
  readonly isUp: boolean;
  readonly xOf: XOf;
}) => {
  const length = lengthQuarters(part);
  const own = moves.filter((move) => move.string === string);
  const start = own[0] === undefined ? (isUp ? 'up' : 'down') : own[0].to === 'up' ? 'down' : 'up';
  const course = own.map((move) => `H${xOf(changeQuarters(part, move))}V${levelOf(lane, move.to)}`).join('');
  return (
    <g>
      <rect class="lane" x={LEFT} y={topOf(lane)} width={xOf(length) - LEFT} height={LANE} />
      <LaneName string={string} lane={lane} />
      <path class="course" d={`M${LEFT} ${levelOf(lane, start)}${course}H${xOf(length)}`} />
    </g>
  );
};

const LaneName = ({ string, lane }: { readonly string: string; readonly lane: number }) => (
  <text class="letter" x={LEFT - 8} y={topOf(lane) + LANE / 2 + 5}>
    {string}
  </text>
);

/** The names of the strings' lanes. */
export const LaneNames = ({ strings }: { readonly strings: readonly string[] }) => (
  <LaneNamesColumn height={heightOf(strings)}>
    {strings.map((string, lane) => (
      <LaneName key={string} string={string} lane={lane} />
    ))}
  </LaneNamesColumn>
);

/** What the user fixed, as far as it spans time: where no lever is set, and where one stays. */
export const Spans = ({
  part,
  decisions,
  strings,
  xOf,
}: {
  readonly part: ReadPart;
  readonly decisions: Decisions;
  readonly strings: readonly string[];
  readonly xOf: XOf;
}) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of shapes takes no focus
  <g aria-hidden="true">
    {decisions.pins.map((pin, i) => {
      if (pin.kind !== 'forbid' && pin.kind !== 'lever-position') return null;
      const from = xOf(quartersOfPlace(part, pin.from));
      const until = xOf(pin.until === null ? lengthQuarters(part) : quartersOfPlace(part, pin.until));
      const width = Math.max(2, until - from);
      if (pin.kind === 'forbid') {
        return (
          <rect key={i} class="forbidden" x={from} y={18} width={width} height={heightOf(strings) - 18} />
        );
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
