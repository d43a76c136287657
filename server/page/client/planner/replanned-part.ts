import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Decisions } from '../../../../engine/index.ts';
import {
  applyAct,
  type DecisionAct,
  type DecisionHistory,
  takeUpHistory,
} from '../decisions/decision-history.ts';
import { newRefusals } from '../decisions/refusals.ts';
import type { PlanChoices } from '../options/choices.ts';
import type { EngineClient } from './engine-client.ts';
import type { OpenedPart, Replanning } from './engine-messages.ts';
import type { PlannedPart, Planning } from './planned-part.ts';

type Replan = EngineClient['replan'];

interface Replanned {
  readonly planning: Planning;
  /** What the planner could not grant of the latest decision, in sentences. */
  readonly refusals: readonly string[];
}

/**
 * The open part and the user's decisions on it, planned anew whenever the decisions or the choices of planning change.
 *
 * @param before what was done to it earlier in this session; null where nothing was
 */
export const useReplannedPart = (
  { part, planning, decisions }: OpenedPart,
  before: DecisionHistory | null,
  choices: PlanChoices,
  replan: Replan,
) => {
  const [history, setHistory] = useState(() => takeUpHistory(before, decisions));
  const [replanned, setReplanned] = useState<Replanned>({ planning, refusals: [] });
  const latest = useRef(history);
  const ask = useAsking(decisions, choices, replan, (anew) =>
    setReplanned(({ planning: before }) => ({
      planning: { ...anew, needs: anew.needs ?? before.needs },
      refusals: newRefusals(before.plan.findings, anew.plan.findings),
    })),
  );
  // At once, not after the next picture: the engine's thread begins before the page draws.
  const act = (deed: DecisionAct): void => {
    latest.current = applyAct(latest.current, deed);
    ask(latest.current.present);
    setHistory(latest.current);
  };
  useLayoutEffect(() => ask(latest.current.present), [JSON.stringify(choices)]);
  const whole = useMemo((): PlannedPart => ({ ...part, ...replanned.planning }), [part, replanned.planning]);
  return { history, act, part: whole, refusals: replanned.refusals };
};

/** Asks for a new plan by the choices as they are now, unless it was the last that was asked for. */
const useAsking = (
  openedWith: Decisions,
  choices: PlanChoices,
  replan: Replan,
  onPlanned: (planning: Replanning) => void,
): ((decisions: Decisions) => void) => {
  const now = useRef(choices);
  now.current = choices;
  const asked = useRef({ decisions: openedWith, choices: JSON.stringify(choices) });
  return (decisions) => {
    const wanted = JSON.stringify(now.current);
    if (asked.current.decisions === decisions && asked.current.choices === wanted) return;
    asked.current = { decisions, choices: wanted };
    replan(decisions, now.current, onPlanned);
  };
};
