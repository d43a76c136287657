import type { FixesReport } from '../../../api/answers/fixes.ts';
import { STRINGS } from '../../strings/strings.ts';

const words = STRINGS.offers;

const WIDTH = 240;
const HEIGHT = 60;
const FOOT = 14;

/** Up to which tempo the part can be played, and how many places cannot at each, as steps. */
export const TempoGraph = ({ tempo }: Pick<FixesReport, 'tempo'>) => {
  const { unit, steps, written, isAssumed, playableUpTo, left } = tempo;
  const figure = (quarters: number): string => `${unit.sign} = ${Math.round(quarters / unit.quarters)}`;
  const most = Math.max(...steps.map(({ stops }) => stops));
  if (most === 0) return null;
  const [least] = steps.map(({ quartersPerMinute }) => quartersPerMinute);
  const x = (value: number): number => (WIDTH * (value - least!)) / Math.max(1, written - least!);
  const y = (stops: number): number => (HEIGHT - FOOT) * (1 - stops / most) + 2;
  const line = steps
    .map(({ quartersPerMinute, stops }, i) =>
      i === 0 ? `M${x(quartersPerMinute)} ${y(stops)}` : `H${x(quartersPerMinute)}V${y(stops)}`,
    )
    .join('');
  return (
    <figure class="tempo-graph">
      <figcaption>
        {words.playableUpTo(playableUpTo === null ? null : figure(playableUpTo), figure(written), isAssumed)}{' '}
        {words.warningsLeft(left)}
      </figcaption>
      <svg
        viewBox={`0 -2 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={words.graph(steps.map((step) => [figure(step.quartersPerMinute), step.stops]))}
      >
        <path d={`M0 ${HEIGHT - FOOT + 2}H${WIDTH}`} class="axis" />
        <path d={line} class="steps" />
        <text x={0} y={HEIGHT - 4}>
          {figure(least!)}
        </text>
        <text x={WIDTH} y={HEIGHT - 4} text-anchor="end">
          {figure(written)}
        </text>
      </svg>
    </figure>
  );
};
