import { type Decisions, type FollowedBars, followDecisions } from '../../../../../engine/index.ts';

/** A step that can be taken back or done again: its name, and the decisions on the other side of it. */
export interface Step {
  readonly name: string;
  readonly decisions: Decisions;
}

/** The user's decisions on a part with what led to them. */
export interface DecisionHistory {
  /** The last step is the end; each holds the decisions before it. */
  readonly past: readonly Step[];
  readonly present: Decisions;
  /** The next step is the start; each holds the decisions after it. */
  readonly future: readonly Step[];
  /** What happened last in this visit: to be told to the user. Null where it was taken up from an earlier one. */
  readonly latest: {
    readonly act: DecisionAct['kind'];
    readonly name: string;
    /** Counts up, so that the same thing done twice is told twice. */
    readonly count: number;
  } | null;
}

export type DecisionAct =
  | { readonly kind: 'do'; readonly name: string; readonly decisions: Decisions }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' };

/** Steps that are remembered. */
const DEPTH = 500;

export const beginHistory = (decisions: Decisions): DecisionHistory => ({
  past: [],
  present: decisions,
  future: [],
  latest: null,
});

/** What was done earlier in this session goes on with the decisions that the part was opened with. */
export const takeUpHistory = (before: DecisionHistory | null, decisions: Decisions): DecisionHistory =>
  before === null ? beginHistory(decisions) : { ...before, present: decisions, latest: null };

/** The same steps once the bars of the piece stand elsewhere, so that each of them still meets its own. */
export const followHistory = (history: DecisionHistory, bars: FollowedBars): DecisionHistory => {
  const follow = (decisions: Decisions): Decisions => followDecisions(decisions, bars).decisions;
  const all = (steps: readonly Step[]): readonly Step[] =>
    steps.map((step) => ({ ...step, decisions: follow(step.decisions) }));
  return {
    ...history,
    past: all(history.past),
    present: follow(history.present),
    future: all(history.future),
  };
};

const announce = (
  { latest }: DecisionHistory,
  act: DecisionAct['kind'],
  name: string,
): DecisionHistory['latest'] => ({
  act,
  name,
  count: (latest?.count ?? 0) + 1,
});

/** Does something new, takes the last step back, or does it again; where there is no such step nothing changes. */
export const applyAct = (history: DecisionHistory, act: DecisionAct): DecisionHistory => {
  const { past, present, future } = history;
  if (act.kind === 'do') {
    return {
      past: [...past, { name: act.name, decisions: present }].slice(-DEPTH),
      present: act.decisions,
      future: [],
      latest: announce(history, 'do', act.name),
    };
  }
  const step = act.kind === 'undo' ? past.at(-1) : future[0];
  if (step === undefined) return history;
  const { name, decisions } = step;
  const passed = { name, decisions: present };
  const latest = announce(history, act.kind, name);
  return act.kind === 'undo'
    ? { past: past.slice(0, -1), present: decisions, future: [passed, ...future], latest }
    : { past: [...past, passed], present: decisions, future: future.slice(1), latest };
};
