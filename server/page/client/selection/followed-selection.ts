import { useRef, useState } from 'preact/hooks';
import type { Plan } from '../../../../engine/index.ts';
import type { PageIndex } from '../score/page-markings.ts';
import { followMarking, followSpot } from './follow-selection.ts';
import type { Selection } from './spot.ts';

interface Held {
  readonly selection: Selection | null;
  readonly plan: Plan;
  readonly index: PageIndex | null;
}

const follow = ({ selection, plan, index }: Held, now: Plan, nowIndex: PageIndex | null): Held => {
  if (selection === null) return { selection, plan: now, index: nowIndex };
  const planned = plan === now ? selection.spot : followSpot(selection.spot, plan, now);
  const spot = planned === null || index === nowIndex ? planned : followMarking(planned, index, nowIndex);
  const isSame = spot === selection.spot;
  return {
    selection: isSame ? selection : spot === null ? null : { spot, origin: 'plan' },
    plan: now,
    index: nowIndex,
  };
};

/** What the user looks at, kept in sight as plans and pages change. */
export const useSelection = (
  plan: Plan,
  index: PageIndex | null,
): readonly [Selection | null, (selection: Selection | null) => void] => {
  const held = useRef<Held>({ selection: null, plan, index });
  const [, refresh] = useState(0);
  if (held.current.plan !== plan || held.current.index !== index) {
    held.current = follow(held.current, plan, index);
  }
  const select = (selection: Selection | null): void => {
    held.current = { ...held.current, selection };
    refresh((count) => count + 1);
  };
  return [held.current.selection, select];
};
