import type { Plan } from '../../../../engine/index.ts';
import type { PageIndex } from '../score/drawn/page-markings.ts';
import { followMarking, followMovedMarking, followSpot } from './follow-selection.ts';
import { useFollowedValue } from './followed-value.ts';
import type { Selection } from './spot.ts';

type Shown = readonly [plan: Plan, index: PageIndex | null];

const follow = (
  selection: Selection | null,
  [plan, index]: Shown,
  [now, nowIndex]: Shown,
): Selection | null => {
  if (selection === null) return null;
  const planned =
    plan === now
      ? selection.spot
      : (followMovedMarking(selection.spot, index, plan, now) ?? followSpot(selection.spot, plan, now));
  const spot = planned === null || index === nowIndex ? planned : followMarking(planned, index, nowIndex);
  if (spot === selection.spot) return selection;
  return spot === null ? null : { spot, origin: 'plan' };
};

/** What the user looks at, kept in sight as plans and pages change. */
export const useSelection = (
  plan: Plan,
  index: PageIndex | null,
): readonly [Selection | null, (selection: Selection | null) => void] =>
  useFollowedValue<Selection | null, Shown>(null, [plan, index], follow);
