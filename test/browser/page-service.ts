import { createHash } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import compression from 'compression';
import express, { type ErrorRequestHandler } from 'express';
import { createAnnotator } from '../../render/annotate.ts';
import type { ReadyPage } from '../../render/pages/page-finisher.ts';
import { drainUpload, setSecurityHeaders } from '../../server/http/protect.ts';
import {
  composeHarpsReply,
  composeReply,
  replyJson,
  replyMarked,
  replyProof,
  replyToldPages,
  type SentFormat,
} from '../../server/http/reply.ts';
import { createUploadBudget } from '../../server/http/upload-budget.ts';
import { createPageRouter } from '../../server/page/serve-page.ts';
import { describeProblem, problemFrom } from '../../server/problems.ts';
import { markHandler, proofHandler } from '../../server/routes/proof.ts';
import {
  annotateHandler,
  compareHandler,
  divideHandler,
  fixesHandler,
  tunesHandler,
} from '../../server/routes/scores.ts';
import type { AnnotateJob, ComputeJob, Perform, Progress, ReplyFormat } from '../../server/threads/job.ts';
import { annotateDivided } from '../../server/threads/tasks/annotate/annotate-divided.ts';
import { annotatePages } from '../../server/threads/tasks/annotate/annotate-pages.ts';
import { annotateScore } from '../../server/threads/tasks/annotate/annotate-score.ts';
import type { Target } from '../../server/threads/tasks/annotate/annotated.ts';
import { computeDivision } from '../../server/threads/tasks/annotate/divide-score.ts';
import { isForTwo } from '../../server/threads/tasks/annotate/for-two.ts';
import { compareScore } from '../../server/threads/tasks/compare-score.ts';
import { computeProof } from '../../server/threads/tasks/compute.ts';
import { findFixes } from '../../server/threads/tasks/find-fixes.ts';
import { markAttempt } from '../../server/threads/tasks/mark-attempt.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../server/threads/tasks/stage-clock.ts';
import { tableOfTunes } from '../../server/threads/tasks/tunes/table-of-tunes.ts';

const targetOf = (wish: Exclude<ReplyFormat, { kind: 'pages' }>): Target => {
  if (wish.kind === 'source') return wish;
  return { kind: wish.kind === 'pdf' ? 'pdf' : 'svg' };
};

/** Who is told of pages while they are drawn. */
interface Telling {
  readonly onProgress: ((progress: Progress) => void) | undefined;
  readonly onPage: (page: ReadyPage) => void;
}

type Answer = Awaited<ReturnType<Perform<AnnotateJob>>>;

const digestOf = ({ bytes, fileName, choice, format: wish }: AnnotateJob): string =>
  createHash('sha256')
    .update(bytes)
    .update(JSON.stringify([fileName, choice, wish]))
    .digest('base64');

/**
 * Annotates in this process: the handlers and the renderer are the real ones, the threads are left out. What was asked before
 * in the same words is answered as before: most claims begin by opening the demo, which takes a second and more to lay out.
 */
const annotateHere = async (): Promise<Perform<AnnotateJob>> => {
  const annotator = await createAnnotator();
  const annotate = async (job: AnnotateJob, tell: Telling): Promise<Answer> => {
    const { choice, format: wish } = job;
    if (wish.kind === 'piece') throw new Error('the page asks for no class set');
    if (wish.kind === 'pages') {
      const clock = startStageClock((progress) => tell.onProgress?.(progress));
      const made = await annotatePages(job, choice, annotator, clock, tell.onPage);
      return made.ok ? { ok: true, value: replyToldPages(made.value) } : made;
    }
    if (isForTwo(choice)) {
      const divided = await annotateDivided(
        job,
        choice,
        targetOf(wish),
        annotator,
        startStageClock(IGNORE_PROGRESS),
      );
      return divided.ok ? composeHarpsReply(divided.value, wish) : divided;
    }
    const made = await annotateScore(
      job,
      choice,
      targetOf(wish),
      annotator,
      startStageClock(IGNORE_PROGRESS),
    );
    return made.ok ? composeReply(made.value, wish as SentFormat) : made;
  };
  const answers = new Map<string, Promise<Answer>>();
  const pagesOf = new Map<string, ReadyPage[]>();
  return async (job, _signal, onProgress, onPage = () => {}) => {
    const digest = digestOf(job);
    const known = answers.get(digest);
    if (known !== undefined) {
      const made = await known;
      for (const page of pagesOf.get(digest) ?? []) onPage(page);
      return made;
    }
    const told: ReadyPage[] = [];
    pagesOf.set(digest, told);
    const tell: Telling = {
      onProgress,
      onPage: (page) => {
        told.push(page);
        onPage(page);
      },
    };
    const answer = annotate(job, tell);
    answers.set(digest, answer);
    return answer;
  };
};

const answerProblem: ErrorRequestHandler = (thrown, _request, response, _next) => {
  const problem = problemFrom(thrown, (bug) => {
    throw bug;
  });
  const { status, headers, body } = describeProblem(problem);
  response.status(status).set(headers).type('application/problem+json').send(JSON.stringify(body));
};

export interface PageService {
  readonly url: string;
  readonly close: () => Promise<void>;
}

/** Serves the built page with what it asks of the service. */
export const startPageService = async (): Promise<PageService> => {
  const app = express();
  const parts = {
    annotate: await annotateHere(),
    compute: async (job: ComputeJob) => {
      if (job.kind === 'tunes') return tableOfTunes(job, startStageClock(IGNORE_PROGRESS));
      if (job.kind === 'proof') {
        const proofread = await computeProof(job, job.choice, startStageClock(IGNORE_PROGRESS), job.format);
        return proofread.ok ? replyProof(proofread.value, job.format) : proofread;
      }
      if (job.kind === 'mark') {
        const marked = await markAttempt(job, job.choice, startStageClock(IGNORE_PROGRESS), job.format.kind);
        return marked.ok ? replyMarked(marked.value, job.format) : marked;
      }
      if (job.kind === 'fixes') {
        const found = await findFixes(job, job.choice, startStageClock(IGNORE_PROGRESS));
        return found.ok ? { ok: true as const, value: replyJson(found.value) } : found;
      }
      if (job.kind === 'divide') {
        const divided = await computeDivision(job, job.choice, startStageClock(IGNORE_PROGRESS));
        return divided.ok ? { ok: true as const, value: replyJson(divided.value) } : divided;
      }
      if (job.kind !== 'compare') throw new Error('the page plans by itself');
      const compared = await compareScore(job, job.choice, startStageClock(IGNORE_PROGRESS));
      return compared.ok ? { ok: true as const, value: replyJson(compared.value) } : compared;
    },
    uploads: createUploadBudget(200_000_000),
    uploadLimitBytes: 50_000_000,
  };
  app.use(setSecurityHeaders, drainUpload, compression(), createPageRouter());
  app.post('/v1/annotate', annotateHandler(parts));
  app.post('/v1/compare', compareHandler(parts));
  app.post('/v1/proof', proofHandler(parts));
  app.post('/v1/mark', markHandler(parts));
  app.post('/v1/fixes', fixesHandler(parts));
  app.post('/v1/divide', divideHandler(parts));
  app.post('/v1/tunes', tunesHandler(parts));
  app.use(answerProblem);
  const server = app.listen(0, '127.0.0.1');
  await new Promise((resolve) => server.once('listening', resolve));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
};
