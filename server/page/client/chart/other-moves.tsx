import type { ToldMove } from '../variants/compared-plan.ts';
import type { XOf } from './chart-geometry.ts';

/** What another plan does otherwise: hollow points beside the user's own. */
export const OtherMoves = <Move,>({
  moves,
  xOf,
  yOf,
}: {
  readonly moves: readonly ToldMove<Move>[];
  readonly xOf: XOf;
  /** Px from the top of the chart; null for a move that has no lane. */
  readonly yOf: (move: Move) => number | null;
}) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of shapes takes no focus
  <g class="other" aria-hidden="true">
    {moves.map(({ move, name, quarters }, i) => {
      const y = yOf(move);
      return (
        y !== null && (
          <circle key={i} cx={xOf(quarters)} cy={y} r={6.5}>
            <title>{name}</title>
          </circle>
        )
      );
    })}
  </g>
);
