import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Decisions } from '../../../../engine/index.ts';
import {
  applyAct,
  type DecisionAct,
  type DecisionHistory,
  takeUpHistory,
} from '../decisions/history/decision-history.ts';
import {
  newTroubles,
  type Solved,
  solvedPlaces,
  type ToldFinding,
  type Trouble,
  toldOfLevers,
  toldOfPedals,
} from '../decisions/troubles.ts';
import type { LeverChoices, PlanChoices } from '../options/choices.ts';
import type { Ask, EngineClient } from './engine-client.ts';
import type { OpenedLevers, OpenedPart, Replanning } from './engine-messages.ts';
import type { LeverPlanning } from './lever-planner.ts';
import type { PlannedPart, Planning } from './planned-part.ts';

interface Replanned<Whole> {
  readonly planning: Whole;
  /** What the planner could not grant of the latest decision, and what cannot be played since. */
  readonly troubles: readonly Trouble[];
  /** What can be played since; null for nothing. */
  readonly solved: Solved | null;
  /** What it was planned with. */
  readonly by: readonly [Decisions, choices: string];
}

interface Replanner<Choices, Whole, Told> {
  readonly opened: { readonly decisions: Decisions; readonly planning: Whole };
  /** What was done to the part earlier in this session; null where nothing was. */
  readonly before: DecisionHistory | null;
  readonly choices: Choices;
  /** Those that the part was planned with when it was opened. */
  readonly openedWith: Choices;
  readonly replan: Ask<Choices, Told>;
  /** The plan of before with what is told of the new one. */
  readonly takeUp: (before: Whole, told: Told) => Whole;
  readonly findingsOf: (planning: Whole) => readonly ToldFinding[];
}

/** The user's decisions on the open part, planned anew whenever the decisions or the choices of planning change. */
const useReplanning = <Choices, Whole, Told>({
  opened: { planning, decisions },
  before,
  choices,
  openedWith,
  replan,
  takeUp,
  findingsOf,
}: Replanner<Choices, Whole, Told>) => {
  const [history, setHistory] = useState(() => takeUpHistory(before, decisions));
  const first = [decisions, JSON.stringify(openedWith)] as const;
  const [replanned, setReplanned] = useState<Replanned<Whole>>({
    planning,
    troubles: [],
    solved: null,
    by: first,
  });
  const latest = useRef(history);
  const asked = useRef<Replanned<Whole>['by']>(first);
  const now = useRef(choices);
  now.current = choices;
  /** Unless it was the last that was asked for. */
  const ask = (wanted: Decisions): void => {
    const by = [wanted, JSON.stringify(now.current)] as const;
    if (asked.current[0] === by[0] && asked.current[1] === by[1]) return;
    asked.current = by;
    replan(wanted, now.current, (answer) =>
      setReplanned(({ planning: old }) => {
        const anew = takeUp(old, answer);
        const told = [findingsOf(old), findingsOf(anew)] as const;
        return { planning: anew, troubles: newTroubles(...told), solved: solvedPlaces(...told), by };
      }),
    );
  };
  // At once, not after the next picture: the engine's thread begins before the page draws.
  const act = (deed: DecisionAct): void => {
    latest.current = applyAct(latest.current, deed);
    ask(latest.current.present);
    setHistory(latest.current);
  };
  useLayoutEffect(() => ask(latest.current.present), [JSON.stringify(choices)]);
  const isPlanning = asked.current[0] !== replanned.by[0] || asked.current[1] !== replanned.by[1];
  // What an earlier decision solved is not told of this one.
  return { ...replanned, solved: isPlanning ? null : replanned.solved, history, act, isPlanning };
};

/** An open part for the pedal harp. */
export const useReplannedPart = (
  opened: OpenedPart,
  before: DecisionHistory | null,
  choices: PlanChoices,
  replan: EngineClient['replan'],
) => {
  const { planning, ...replanned } = useReplanning<PlanChoices, Planning, Replanning>({
    opened,
    before,
    choices,
    openedWith: useRef(choices).current,
    replan,
    takeUp: (old, told) => ({ ...told, needs: told.needs ?? old.needs }),
    findingsOf: ({ plan }) => toldOfPedals(plan.findings),
  });
  const part = useMemo((): PlannedPart => ({ ...opened.part, ...planning }), [opened.part, planning]);
  return { ...replanned, part };
};

/** An open part for the lever harp. */
export const useReplannedLevers = (
  opened: OpenedLevers,
  before: DecisionHistory | null,
  choices: LeverChoices,
  planning: Pick<EngineClient, 'replanLevers'> & { readonly openedWith: LeverChoices },
) =>
  useReplanning<LeverChoices, LeverPlanning, LeverPlanning>({
    opened,
    before,
    choices,
    openedWith: planning.openedWith,
    replan: planning.replanLevers,
    takeUp: (_, told) => told,
    findingsOf: ({ report }) => toldOfLevers(report.findings),
  });
