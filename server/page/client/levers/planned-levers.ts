import { useEffect, useState } from 'preact/hooks';
import type { LeverAnnotateReport } from '../../../api/answers/lever-report.ts';
import { newRefusals } from '../decisions/refusals.ts';
import type { Order } from '../service/annotate-request.ts';
import { fetchLevers } from './lever-request.ts';

/** What the service told last, null where it has told nothing yet, and what becomes of the question that is open. */
export interface Levers {
  readonly report: LeverAnnotateReport | null;
  readonly state: 'asking' | 'ready' | { readonly trouble: string };
  /** What the planner could not grant of the latest decision, in sentences. */
  readonly refusals: readonly string[];
}

/** The plan and the pages, asked for anew with every choice and decision; what was told before stays until then. */
export const useLevers = (order: Order): { readonly levers: Levers; readonly askAgain: () => void } => {
  const [levers, setLevers] = useState<Levers>({ report: null, state: 'asking', refusals: [] });
  const [times, setTimes] = useState(0);
  useEffect(() => {
    const leaving = new AbortController();
    setLevers((before) => ({ ...before, state: 'asking' }));
    void fetchLevers(order, leaving.signal).then(
      (answer) =>
        setLevers((before) => {
          if (!answer.ok) return { ...before, state: { trouble: answer.sentence } };
          const refusals = newRefusals(before.report?.findings ?? [], answer.value.findings);
          return { report: answer.value, state: 'ready', refusals };
        }),
      (error: unknown) => {
        if (!leaving.signal.aborted) throw error;
      },
    );
    return () => leaving.abort();
  }, [order, times]);
  return { levers, askAgain: () => setTimes(times + 1) };
};
