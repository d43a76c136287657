import { tempoFigure } from '../../../../engine/index.ts';
import type { FixesReport } from '../../../api/answers/fixes.ts';
import { STRINGS } from '../../strings/strings.ts';

const words = STRINGS.offers;

const WIDTH = 240;
const HEIGHT = 72;
const FOOT = 14;
/** Room for a number over the line. */
const HEAD = 12;
/** A label of a tempo takes no more than this. */
const LABEL = 60;

/** Up to which tempo the part can be played, and how many places cannot at each, as steps. */
export const TempoGraph = ({ tempo }: Pick<FixesReport, 'tempo'>) => {
  const { unit, steps, written, isAssumed, playableUpTo, left, mended } = tempo;
  const figure = (quarters: number): string => `${unit.sign} = ${tempoFigure(quarters, unit)}`;
  const most = Math.max(...steps.map(({ stops }) => stops));
  if (most === 0) return null;
  const [least] = steps.map(({ quartersPerMinute }) => quartersPerMinute);
  const x = (value: number): number => (WIDTH * (value - least!)) / Math.max(1, written - least!);
  const y = (stops: number): number => HEAD + (HEIGHT - FOOT - HEAD) * (1 - stops / most);
  const ends = [steps[0]!, steps.at(-1)!];
  const limit = playableUpTo === null ? null : x(playableUpTo);
  const line = steps
    .map(({ quartersPerMinute, stops }, i) =>
      i === 0 ? `M${x(quartersPerMinute)} ${y(stops)}` : `H${x(quartersPerMinute)}V${y(stops)}`,
    )
    .join('');
  return (
    <figure class="tempo-graph">
      <figcaption>
        {words.playableUpTo(playableUpTo === null ? null : figure(playableUpTo), figure(written), isAssumed)}{' '}
        {words.warningsLeft(left)}{' '}
        {words.mended(
          mended.map((place) => ({
            ...place,
            tempo: figure(place.quartersPerMinute),
            there: figure(place.there),
          })),
        )}
      </figcaption>
      <svg
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        role="img"
        aria-label={words.graph(steps.map((step) => [figure(step.quartersPerMinute), step.stops]))}
      >
        <path d={`M0 ${HEIGHT - FOOT}H${WIDTH}`} class="axis" />
        <path d={line} class="steps" />
        {ends.map(({ quartersPerMinute, stops }, i) => (
          <text
            key={i === 0 ? 'slowest' : 'written'}
            x={x(quartersPerMinute)}
            y={y(stops) - 2}
            text-anchor={i === 0 ? 'start' : 'end'}
          >
            {stops}
          </text>
        ))}
        {ends.map(({ quartersPerMinute }, i) => (
          <text
            key={i === 0 ? 'slowest' : 'written'}
            x={x(quartersPerMinute)}
            y={HEIGHT - 4}
            text-anchor={i === 0 ? 'start' : 'end'}
          >
            {figure(quartersPerMinute)}
          </text>
        ))}
        {limit === null ? null : (
          <>
            <path d={`M${limit} ${HEIGHT - FOOT - 3}v6`} class="axis" />
            <text
              x={limit < LABEL ? limit + 3 : limit - 3}
              y={HEIGHT - FOOT - 3}
              text-anchor={limit < LABEL ? 'start' : 'end'}
            >
              {figure(playableUpTo!)}
            </text>
          </>
        )}
      </svg>
    </figure>
  );
};
