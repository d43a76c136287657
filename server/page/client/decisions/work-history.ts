import type { Work } from '../../../../engine/decisions/model.ts';

/** A step that can be taken back or done again: its name, and the work on the other side of it. */
interface Step {
  readonly name: string;
  readonly work: Work;
}

/** The user's work on a part with what led to it. */
export interface WorkHistory {
  /** The last step is the end; each holds the work before it. */
  readonly past: readonly Step[];
  readonly present: Work;
  /** The next step is the start; each holds the work after it. */
  readonly future: readonly Step[];
  /** What happened last: to be told to the user. */
  readonly latest: {
    readonly act: WorkAct['kind'];
    readonly name: string;
    /** Counts up, so that the same thing done twice is told twice. */
    readonly count: number;
  } | null;
}

export type WorkAct =
  | { readonly kind: 'do'; readonly name: string; readonly work: Work }
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' };

/** Steps that are remembered. */
const DEPTH = 500;

export const beginHistory = (work: Work): WorkHistory => ({
  past: [],
  present: work,
  future: [],
  latest: null,
});

const tell = ({ latest }: WorkHistory, act: WorkAct['kind'], name: string): WorkHistory['latest'] => ({
  act,
  name,
  count: (latest?.count ?? 0) + 1,
});

/** Does something new, takes the last step back, or does it again; where there is no such step nothing changes. */
export const changeWork = (history: WorkHistory, act: WorkAct): WorkHistory => {
  const { past, present, future } = history;
  if (act.kind === 'do') {
    return {
      past: [...past, { name: act.name, work: present }].slice(-DEPTH),
      present: act.work,
      future: [],
      latest: tell(history, 'do', act.name),
    };
  }
  const step = act.kind === 'undo' ? past.at(-1) : future[0];
  if (step === undefined) return history;
  const { name, work } = step;
  const passed = { name, work: present };
  const latest = tell(history, act.kind, name);
  return act.kind === 'undo'
    ? { past: past.slice(0, -1), present: work, future: [passed, ...future], latest }
    : { past: [...past, passed], present: work, future: future.slice(1), latest };
};
