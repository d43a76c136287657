import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Plan } from '../../../engine/plan/model.ts';
import type { Work } from '../../../engine/work/model.ts';
import type { PlanChoices } from './choices.ts';
import type { EngineClient } from './engine-client.ts';
import type { OpenedPart } from './engine-messages.ts';
import type { PlannedPart, Planning } from './planned-part.ts';

const refusalsIn = ({ findings }: Plan): readonly string[] =>
  findings.filter(({ code }) => code === 'pin-not-honoured').map(({ sentence }) => sentence);

interface Worked {
  readonly planning: Planning;
  /** What the planner could not grant of the latest decision, in sentences. */
  readonly refusals: readonly string[];
}

/** The open part, planned anew whenever the work or the choices of planning change. */
export const useWorkedPart = (
  { part, planning, work: openedWith }: OpenedPart,
  work: Work,
  choices: PlanChoices,
  replan: EngineClient['replan'],
): { readonly part: PlannedPart; readonly refusals: readonly string[] } => {
  const [worked, setWorked] = useState<Worked>({ planning, refusals: [] });
  const asked = useRef({ work: openedWith, choices: JSON.stringify(choices) });
  const wanted = JSON.stringify(choices);
  // At once, not after the next picture: the engine's thread can begin while the page still draws.
  useLayoutEffect(() => {
    if (asked.current.work === work && asked.current.choices === wanted) return;
    asked.current = { work, choices: wanted };
    replan(work, choices, (anew) =>
      setWorked((before) => {
        const known = refusalsIn(before.planning.plan);
        const refusals = refusalsIn(anew.plan).filter((sentence) => !known.includes(sentence));
        return { planning: { ...anew, needs: anew.needs ?? before.planning.needs }, refusals };
      }),
    );
  }, [work, wanted]);
  const whole = useMemo(() => ({ ...part, ...worked.planning }), [part, worked.planning]);
  return { part: whole, refusals: worked.refusals };
};
