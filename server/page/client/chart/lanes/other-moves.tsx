import type { ComparedPlan } from '../../variants/compared-plan.ts';
import type { XOf } from '../geometry/chart-geometry.ts';

/** Px of a point of another plan, and of a ring round one of the user's own. */
const HOLLOW = 6.5;
const RING = 10;

/** In what another plan differs: its moves as hollow points, and rings round those that it does without. */
export const OtherMoves = <Move,>({
  compared,
  xOf,
  yOf,
}: {
  readonly compared: Pick<ComparedPlan<Move>, 'others' | 'own'>;
  readonly xOf: XOf;
  /** Px from the top of the chart; null for a move that has no lane. */
  readonly yOf: (move: Move) => number | null;
}) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of shapes takes no focus
  <g class="other" aria-hidden="true">
    {compared.others.map(({ move, name, quarters }, i) => {
      const y = yOf(move);
      return (
        y !== null && (
          <circle key={i} cx={xOf(quarters)} cy={y} r={HOLLOW}>
            <title>{name}</title>
          </circle>
        )
      );
    })}
    {compared.own.map(({ move, quarters, index }) => {
      const y = yOf(move);
      return y !== null && <circle key={`own ${index}`} class="own" cx={xOf(quarters)} cy={y} r={RING} />;
    })}
  </g>
);
