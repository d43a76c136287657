import type { Decisions, HarpName, Plan } from '../../../../engine/index.ts';
import type { LeverPlanReport } from '../../../api/answers/lever-report.ts';
import type { LeverChoices, PlanChoices } from '../options/choices.ts';
import type { EngineReport, EngineRequest, Replanning } from './engine-messages.ts';
import type { LeverPlanning } from './lever-planner.ts';
import { joinPieces, type Piece } from './pieces.ts';

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
  readonly leverChoices: LeverChoices;
}

/** The file of the planner's thread, as the build names it. */
declare const ENGINE_WORKER: string;

/** Plans the score that was opened last; an earlier answer that is still to come is passed over. */
export type Ask<Choices, Planned> = (
  decisions: Decisions,
  choices: Choices,
  onPlanned: (planned: Planned) => void,
) => void;

/** The engine in a thread of its own, so that the page answers while it computes. */
export interface EngineClient {
  /** Reads and plans; reports of an earlier score that is still being replanned on are passed over. */
  readonly open: (score: ScoreToOpen, onReport: (report: EngineReport) => void) => void;
  /** The same for the next save of the open score, which is replanned on until then. @param of the request that opened that one */
  readonly renew: (score: ScoreToOpen, of: number, onReport: (report: EngineReport) => void) => void;
  readonly replan: Ask<PlanChoices, Replanning>;
  readonly replanLevers: Ask<LeverChoices, LeverPlanning>;
  /** Otherwise than the user's own plan, which stays. */
  readonly planOther: Ask<PlanChoices, Plan>;
  readonly planOtherLevers: Ask<LeverChoices, LeverPlanReport>;
  /** The same, while a change is dragged. */
  readonly tryLevers: Ask<LeverChoices, LeverPlanReport>;
}

/** Answers to one kind of question: only the latest is listened to. @param nextRequest numbers all questions */
const answersTo = (post: (request: EngineRequest) => void, nextRequest: () => number) => {
  let request = 0;
  let listen: (report: EngineReport) => void = () => {};
  return {
    ask: (asked: (request: number) => EngineRequest, onReport: (report: EngineReport) => void): void => {
      request = nextRequest();
      listen = onReport;
      post(asked(request));
    },
    hear: (report: EngineReport): void => {
      if (report.request === request) listen(report);
    },
  };
};

type Answers = ReturnType<typeof answersTo>;

const askOther =
  ({ ask }: Answers): Ask<PlanChoices, Plan> =>
  (decisions, choices, onPlanned) =>
    ask(
      (request) => ({ kind: 'plan-other', request, decisions, choices }),
      (report) => report.kind === 'planned-other' && onPlanned(report.plan),
    );

const askOtherLevers =
  ({ ask }: Answers): Ask<LeverChoices, LeverPlanReport> =>
  (decisions, choices, onPlanned) =>
    ask(
      (request) => ({ kind: 'plan-other-levers', request, decisions, choices }),
      (report) => report.kind === 'planned-other-levers' && onPlanned(report.report),
    );

export const startEngine = (onCrash: () => void): EngineClient => {
  const worker = new Worker(new URL(ENGINE_WORKER, document.baseURI), { type: 'module' });
  const post = (asked: EngineRequest): void => worker.postMessage(asked);
  let requests = 0;
  const create = (): Answers =>
    answersTo(post, () => {
      requests += 1;
      return requests;
    });
  // None passes answers of another over.
  const [own, renewed, compared, tried] = [create(), create(), create(), create()];
  const take = joinPieces<EngineReport>((report) => {
    for (const each of [own, renewed, compared, tried]) each.hear(report);
  });
  worker.addEventListener('message', ({ data }: MessageEvent<Piece<EngineReport>>) => take(data));
  worker.addEventListener('error', onCrash);
  return {
    open: (score, onReport) =>
      own.ask((request) => ({ kind: 'open', request, renews: null, ...score }), onReport),
    renew: (score, of, onReport) =>
      renewed.ask((request) => ({ kind: 'open', request, renews: of, ...score }), onReport),
    replan: (decisions, choices, onPlanned) =>
      own.ask(
        (request) => ({ kind: 'replan', request, decisions, choices }),
        (report) => report.kind === 'replanned' && onPlanned(report.planning),
      ),
    replanLevers: (decisions, choices, onPlanned) =>
      own.ask(
        (request) => ({ kind: 'replan-levers', request, decisions, choices }),
        (report) => report.kind === 'replanned-levers' && onPlanned(report.planning),
      ),
    planOther: askOther(compared),
    planOtherLevers: askOtherLevers(compared),
    tryLevers: askOtherLevers(tried),
  };
};
