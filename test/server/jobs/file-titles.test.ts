import { strToU8, zipSync } from 'fflate';
import request from 'supertest';
import { describe, expect, it } from 'vitest';
import { runJob } from '../../../server/jobs/run-job.ts';
import type { AnnotateJob } from '../../../server/threads/job.ts';
import { computePlan, computeProof } from '../../../server/threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../../server/threads/tasks/stage-clock.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { sampleAnnotation } from '../annotation-sample.ts';
import { annotating, fakeService, memoryStore } from '../fake-service.ts';

const UNTITLED = strToU8(buildHarp(note('C4', 4)));

const keepingJobs = () => {
  const jobs: AnnotateJob[] = [];
  const annotate = annotating(async (job) => {
    jobs.push(job);
    return { ok: true, value: sampleAnnotation({ pages: [], pdf: strToU8('%PDF-') }) };
  });
  return { annotate, jobs };
};

describe('a score that states no title', () => {
  it('is called by its file in the plan', async () => {
    const planned = await computePlan(
      { bytes: UNTITLED, fileName: 'Two_Swans.musicxml' },
      {},
      startStageClock(IGNORE_PROGRESS),
    );
    expect(planned).toMatchObject({ ok: true, value: { title: 'Two Swans' } });
  });

  it('has no title where the file has no name', async () => {
    const file = { bytes: UNTITLED, fileName: '' };
    expect(await computePlan(file, {}, startStageClock(IGNORE_PROGRESS))).toMatchObject({
      value: { title: '' },
    });
    expect((await computeProof(file, {}, startStageClock(IGNORE_PROGRESS))).ok).toBe(true);
  });

  it('is answered anew under another name, and known again under its own', async () => {
    const { annotate, jobs } = keepingJobs();
    const { app } = fakeService({ annotate });
    const send = (fileName: string, known = '') =>
      request(app)
        .post('/v1/annotate')
        .set('If-None-Match', known)
        .attach('score', Buffer.from(UNTITLED), fileName);
    const first = await send('Two Swans.musicxml');
    expect(jobs.map(({ fileName }) => fileName)).toEqual(['Two Swans.musicxml']);
    expect((await send('Two Swans.musicxml', first.headers.etag)).status).toBe(304);
    expect((await send('The Ferry.musicxml', first.headers.etag)).status).toBe(200);
    expect(jobs.map(({ fileName }) => fileName)).toEqual(['Two Swans.musicxml', 'The Ferry.musicxml']);
  });

  it('is called by its own file in an archive, and not by the archive', async () => {
    const { annotate, jobs } = keepingJobs();
    const store = memoryStore();
    await store.put('1.input', zipSync({ 'winter/Tide.mei': UNTITLED, 'Ebb.xml': UNTITLED }));
    const compute = async () => ({ ok: true as const, value: { headers: {}, body: UNTITLED } });
    const workers = { annotate, compute, store, mostScores: 5, limitMs: 60_000, recordBug: () => '' };
    const order = { fileName: 'scores.zip', choice: {}, output: 'pdf' as const };
    await runJob('1', order, workers, () => {}, new AbortController().signal);
    expect(jobs.map(({ fileName }) => fileName)).toEqual(['winter/Tide.mei', 'Ebb.xml']);
  });
});
