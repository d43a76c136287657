import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Work } from '../../../../engine/decisions/model.ts';
import type { Plan } from '../../../../engine/pedals/model.ts';
import { beginHistory, changeWork, type WorkAct, type WorkHistory } from '../decisions/work-history.ts';
import type { PlanChoices } from '../options/choices.ts';
import type { EngineClient } from './engine-client.ts';
import type { OpenedPart, Replanning } from './engine-messages.ts';
import type { PlannedPart, Planning } from './planned-part.ts';

type Replan = EngineClient['replan'];

const refusalsIn = ({ findings }: Plan): readonly string[] =>
  findings.filter(({ code }) => code === 'pin-not-honoured').map(({ sentence }) => sentence);

interface Worked {
  readonly planning: Planning;
  /** What the planner could not grant of the latest decision, in sentences. */
  readonly refusals: readonly string[];
}

/**
 * The open part and the user's work on it, planned anew whenever the work or the choices of planning change.
 *
 * @param before what was done to it earlier in this session; null where nothing was
 */
export const useWorkedPart = (
  { part, planning, work }: OpenedPart,
  before: WorkHistory | null,
  choices: PlanChoices,
  replan: Replan,
) => {
  const [history, setHistory] = useState(() =>
    before === null ? beginHistory(work) : { ...before, present: work, latest: null },
  );
  const [worked, setWorked] = useState<Worked>({ planning, refusals: [] });
  const latest = useRef(history);
  const ask = useAsking(work, choices, replan, (anew) =>
    setWorked((before) => {
      const known = refusalsIn(before.planning.plan);
      const refusals = refusalsIn(anew.plan).filter((sentence) => !known.includes(sentence));
      return { planning: { ...anew, needs: anew.needs ?? before.planning.needs }, refusals };
    }),
  );
  // At once, not after the next picture: the engine's thread begins before the page draws.
  const act = (deed: WorkAct): void => {
    latest.current = changeWork(latest.current, deed);
    ask(latest.current.present);
    setHistory(latest.current);
  };
  useLayoutEffect(() => ask(latest.current.present), [JSON.stringify(choices)]);
  const whole = useMemo((): PlannedPart => ({ ...part, ...worked.planning }), [part, worked.planning]);
  return { history, act, part: whole, refusals: worked.refusals };
};

/** Asks for a new plan by the choices as they are now, unless it was the last that was asked for. */
const useAsking = (
  openedWith: Work,
  choices: PlanChoices,
  replan: Replan,
  onPlanned: (planning: Replanning) => void,
): ((work: Work) => void) => {
  const now = useRef(choices);
  now.current = choices;
  const asked = useRef({ work: openedWith, choices: JSON.stringify(choices) });
  return (work) => {
    const wanted = JSON.stringify(now.current);
    if (asked.current.work === work && asked.current.choices === wanted) return;
    asked.current = { work, choices: wanted };
    replan(work, now.current, onPlanned);
  };
};
