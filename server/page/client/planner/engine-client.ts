import type { Decisions, HarpName, Plan } from '../../../../engine/index.ts';
import type { PlanChoices } from '../options/choices.ts';
import type { EngineReport, EngineRequest, Replanning } from './engine-messages.ts';

/** A score to be opened, with what the browser remembers about it. */
export interface ScoreToOpen {
  readonly bytes: Uint8Array;
  readonly fileName: string;
  readonly part: string | null;
  readonly tune: string | null;
  readonly movement: string | null;
  readonly instrument: HarpName | null;
  readonly kept: Decisions | null;
  readonly choices: PlanChoices;
}

/** The file of the planner's thread, as the build names it. */
declare const ENGINE_WORKER: string;

/** The engine in a thread of its own, so that the page answers while it computes. */
export interface EngineClient {
  /** Reads and plans; reports of an earlier score that is still being replanned on are passed over. */
  readonly open: (score: ScoreToOpen, onReport: (report: EngineReport) => void) => void;
  /** Plans the score that was opened last anew; an earlier answer that is still to come is passed over. */
  readonly replan: (
    decisions: Decisions,
    choices: PlanChoices,
    onPlanned: (planning: Replanning) => void,
  ) => void;
  /** Plans the score that was opened last otherwise; an earlier answer that is still to come is passed over. */
  readonly planOther: (decisions: Decisions, choices: PlanChoices, onPlanned: (plan: Plan) => void) => void;
}

export const startEngine = (onCrash: () => void): EngineClient => {
  const worker = new Worker(new URL(ENGINE_WORKER, document.baseURI), { type: 'module' });
  let request = 0;
  // Counted with the others, but neither passes the other over.
  let otherRequest = 0;
  let listenToOther: (plan: Plan) => void = () => {};
  let listen: (report: EngineReport) => void = () => {};
  worker.addEventListener('message', ({ data }: MessageEvent<EngineReport>) => {
    if (data.kind === 'planned-other') {
      if (data.request === otherRequest) listenToOther(data.plan);
    } else if (data.request === request) listen(data);
  });
  worker.addEventListener('error', onCrash);
  const ask = (asked: EngineRequest): void => worker.postMessage(asked);
  return {
    open: (score, onReport) => {
      request += 1;
      listen = onReport;
      ask({ kind: 'open', request, ...score });
    },
    replan: (decisions, choices, onPlanned) => {
      request += 1;
      listen = (report) => {
        if (report.kind === 'replanned') onPlanned(report.planning);
      };
      ask({ kind: 'replan', request, decisions, choices });
    },
    planOther: (decisions, choices, onPlanned) => {
      otherRequest += 1;
      listenToOther = onPlanned;
      ask({ kind: 'plan-other', request: otherRequest, decisions, choices });
    },
  };
};
