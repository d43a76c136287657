import { type Annotator, createAnnotator } from '../render/annotate.ts';
import { EngraverBrokeDown } from '../render/layout/verovio.ts';
import { composeReply } from './reply.ts';
import { decline, type Outcome } from './service-problem.ts';
import { annotateScore, type Target } from './work/annotate-score.ts';
import { giveWay } from './work/give-way.ts';
import { handOver } from './work/hand-over.ts';
import type { AnnotateJob, Assignment, Reply, Wish } from './work/job.ts';
import { startStageClock } from './work/stage-clock.ts';

/** Made when the thread starts, so that the first score need not wait for it. */
let annotator: Promise<Annotator> = createAnnotator();
annotator.catch(() => {});

giveWay();

const targetOf = (wish: Wish): Target => {
  switch (wish.kind) {
    case 'pdf':
    case 'svg':
      return { kind: wish.kind };
    case 'report':
      return { kind: wish.withPages ? 'svg' : 'plan' };
    case 'source':
      return wish;
  }
};

/** The job of the pool's threads. */
export const work = async ({ job, port }: Assignment<AnnotateJob>): Promise<unknown> => {
  const clock = startStageClock((progress) => port?.postMessage(progress));
  try {
    const { bytes, choice, wish } = job;
    const annotated = await annotateScore(bytes, choice, targetOf(wish), await annotator, clock);
    const outcome: Outcome<Reply> = annotated.ok ? composeReply(annotated.value, wish) : annotated;
    return handOver({ outcome, seconds: clock.stop() });
  } catch (error) {
    // A renderer that threw may be left in any state: the next score gets a new one.
    annotator = createAnnotator();
    annotator.catch(() => {});
    if (!(error instanceof EngraverBrokeDown)) throw error;
    return handOver({ outcome: decline({ code: 'layout-failed' }), seconds: clock.stop() });
  } finally {
    port?.close();
  }
};
