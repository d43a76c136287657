import { LETTERS } from '../../../../engine/music/pitch.ts';
import { HEIGHT, LEFT, laneBox } from './chart-geometry.ts';

/** The letters of the lanes, which stay in sight while the chart scrolls beneath them. */
export const LaneNames = () => (
  <svg
    class="lane-names"
    width={LEFT - 2}
    height={HEIGHT}
    style={{ marginBottom: `${-HEIGHT}px` }}
    aria-hidden="true"
  >
    <rect width={LEFT - 2} height={HEIGHT} />
    {LETTERS.map((letter) => {
      const { top, height } = laneBox(letter);
      return (
        <text key={letter} x={LEFT - 12} y={top + height / 2 + 5}>
          {letter}
        </text>
      );
    })}
  </svg>
);
