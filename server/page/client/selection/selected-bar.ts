import type { PlannedPart } from '../planner/planned-part.ts';
import type { PageIndex } from '../score/drawn/page-markings.ts';
import { markingOf } from './selected-moves.ts';
import type { Selection } from './spot.ts';

/** The bar of what the user looks at: an index into the bars; null where nothing is looked at. */
export const selectedBar = (
  selection: Selection | null,
  { plan, notes }: PlannedPart,
  index: PageIndex | null,
): number | null => {
  const spot = selection?.spot;
  switch (spot?.kind) {
    case 'move':
      return plan.moves[spot.move]?.bar ?? null;
    case 'finding':
      return plan.findings[spot.finding]?.bar ?? null;
    case 'note':
      return notes.get(spot.id)?.bar ?? null;
    case 'place':
      return spot.bar;
    case 'marking':
      return markingOf(spot, index)?.bar ?? null;
    case undefined:
      return null;
  }
};
