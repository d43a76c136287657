import { type Decisions, formatChange, positionNamed } from '../../../../../engine/index.ts';
import { quartersOfPlace } from '../../decisions/places.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import { HEIGHT, laneBox, lengthQuarters, levelOf, type XOf } from '../geometry/chart-geometry.ts';

/** What the user fixed, as far as it spans time: where no pedal moves, and where one stays. */
export const Spans = ({
  part,
  decisions,
  xOf,
}: {
  readonly part: PlannedPart;
  readonly decisions: Decisions;
  readonly xOf: XOf;
}) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of shapes takes no focus
  <g aria-hidden="true">
    {decisions.pins.map((pin, i) => {
      // Levers have a chart of their own.
      if (pin.kind !== 'forbid' && pin.kind !== 'position') return null;
      const from = xOf(quartersOfPlace(part, pin.from));
      const until = xOf(pin.until === null ? lengthQuarters(part) : quartersOfPlace(part, pin.until));
      const width = Math.max(2, until - from);
      if (pin.kind === 'forbid') {
        return <rect key={i} class="forbidden" x={from} y={18} width={width} height={HEIGHT - 18} />;
      }
      const { top, height } = laneBox(pin.pedal);
      const y = levelOf(pin.pedal, positionNamed(pin.position));
      return (
        <g key={i} class="kept">
          <title>{formatChange(pin.pedal, positionNamed(pin.position))}</title>
          <path d={`M${from} ${top}v${height}m0 ${y - top - height}h${width}m0 ${top - y}v${height}`} />
        </g>
      );
    })}
  </g>
);
