import { formatChange } from '../../../../engine/index.ts';
import { type ComparedPlan, ghostsOf } from '../variants/other-plan.ts';
import { levelOf, type XOf } from './chart-geometry.ts';

/** What another plan does otherwise: hollow points beside the user's own. */
export const OtherMoves = ({ compared, xOf }: { readonly compared: ComparedPlan; readonly xOf: XOf }) => (
  // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of shapes takes no focus
  <g class="other" aria-hidden="true">
    {ghostsOf(compared).map(({ move, quarters }, i) => (
      <circle key={i} cx={xOf(quarters)} cy={levelOf(move.letter, move.to)} r={6.5}>
        <title>{formatChange(move.letter, move.to)}</title>
      </circle>
    ))}
  </g>
);
