import {
  type Annotator,
  createAnnotator,
  EngraverError,
  type ReadyPage,
  type SharedAnnotator,
} from '../../render/index.ts';
import { composeHarpsReply, composeReply, replyJson, replyToldPages } from '../http/reply.ts';
import { fail, type Outcome } from '../service-problem.ts';
import { giveWay } from './give-way.ts';
import { helpAt, helperAt, type SharedEnd } from './helping/shared-tasks.ts';
import type { AnnotateJob, Reply, ReplyFormat, WorkerMessage } from './job.ts';
import { annotateDivided } from './tasks/annotate/annotate-divided.ts';
import { annotateHarps } from './tasks/annotate/annotate-harps.ts';
import { annotatePages } from './tasks/annotate/annotate-pages.ts';
import { annotateScore } from './tasks/annotate/annotate-score.ts';
import type { Target } from './tasks/annotate/annotated.ts';
import { isForTwo } from './tasks/annotate/for-two.ts';
import { drawPiece } from './tasks/draw-piece.ts';
import { type StageClock, startStageClock } from './tasks/stage-clock.ts';
import { transferBody } from './transfer-body.ts';

/** Made when the thread starts, so that the first score need not wait for it. */
let annotator: Promise<SharedAnnotator> = createAnnotator();
annotator.catch(() => {});

/** A renderer that threw may be left in any state: the next score gets a new one. */
const renewAnnotator = (): void => {
  annotator = createAnnotator();
  annotator.catch(() => {});
};

giveWay();

const targetOf = (format: Exclude<ReplyFormat, { kind: 'piece' | 'pages' }>): Target => {
  switch (format.kind) {
    case 'pdf':
      return { kind: 'pdf' };
    case 'svg':
    case 'png':
      return { kind: 'svg' };
    case 'report':
      return { kind: format.withPages ? 'svg' : 'plan' };
    case 'source':
      return format;
  }
};

const annotate = async (
  job: AnnotateJob,
  drawer: Annotator,
  clock: StageClock,
  onPage: (page: ReadyPage) => void,
): Promise<Outcome<Reply>> => {
  const { choice, format } = job;
  if (format.kind === 'piece') {
    const piece = await drawPiece(job, choice, drawer, clock);
    return piece.ok ? { ok: true, value: replyJson(piece.value) } : piece;
  }
  if (format.kind === 'pages') {
    const told = await annotatePages(job, choice, drawer, clock, onPage);
    return told.ok ? { ok: true, value: replyToldPages(told.value) } : told;
  }
  const target = targetOf(format);
  if (choice.allHarps === true) {
    const harps = await annotateHarps(job, choice, target, drawer, clock);
    return harps.ok ? composeHarpsReply(harps.value, format) : harps;
  }
  if (isForTwo(choice)) {
    const divided = await annotateDivided(job, choice, target, drawer, clock);
    return divided.ok ? composeHarpsReply(divided.value, format) : divided;
  }
  const annotated = await annotateScore(job, choice, target, drawer, clock);
  return annotated.ok ? composeReply(annotated.value, format) : annotated;
};

/** The job of the pool's threads. */
export const work = async ({ help: shared, job, port }: WorkerMessage<AnnotateJob>): Promise<unknown> => {
  const clock = startStageClock((progress) => port?.postMessage(progress));
  try {
    const own = await annotator;
    const helped = shared === null ? own : own.helpedBy(helperAt(shared));
    const outcome = await annotate(job, helped, clock, (page) => port?.postMessage(page));
    return transferBody({ outcome, seconds: clock.stop() });
  } catch (error) {
    renewAnnotator();
    if (!(error instanceof EngraverError)) throw error;
    return transferBody({ outcome: fail({ code: 'layout-failed' }), seconds: clock.stop() });
  } finally {
    port?.close();
    shared?.port.close();
  }
};

/** Helps another of the pool's threads. */
export const help = async (shared: SharedEnd): Promise<void> => {
  try {
    helpAt(shared, await (await annotator).lend());
  } catch (error) {
    renewAnnotator();
    throw error;
  } finally {
    shared.port.close();
  }
};
