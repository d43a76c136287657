import express, { type ErrorRequestHandler } from 'express';
import request from 'supertest';
import { describe, expect, it } from 'vitest';
import { replyProof } from '../../server/http/reply.ts';
import { createUploadBudget } from '../../server/http/upload-budget.ts';
import { describeProblem } from '../../server/problems.ts';
import { proofHandler } from '../../server/routes/proof.ts';
import type { ComputeJob, Perform } from '../../server/threads/job.ts';
import { computeProof } from '../../server/threads/tasks/compute.ts';
import { IGNORE_PROGRESS, startStageClock } from '../../server/threads/tasks/stage-clock.ts';
import { buildHarp, note, words } from '../engine/score/musicxml/musicxml-builder.ts';

const MUSICXML = 'application/vnd.recordare.musicxml+xml';

/** C♭ is printed where C♯ is needed. */
const SCORE = buildHarp(words('D♮ C♮ B♮ E♮ F♮ G♮ A♮') + note('C4', 4), words('C♭') + note('C#4', 4));

const compute: Perform<ComputeJob> = async (job) => {
  if (job.kind !== 'proof') throw new Error(job.kind);
  const proofread = await computeProof(job, job.choice, startStageClock(IGNORE_PROGRESS), job.format);
  return proofread.ok ? replyProof(proofread.value, job.format) : proofread;
};

const handler = proofHandler({
  annotate: async () => {
    throw new Error('nothing is annotated here');
  },
  compute,
  uploads: createUploadBudget(1_000_000),
  uploadLimitBytes: 100_000,
});

const answerProblem: ErrorRequestHandler = (problem, _request, response, _next) => {
  const { status, body } = describeProblem(problem);
  response.status(status).json(body);
};

const app = express().post('/v1/proof', handler).use(answerProblem);

const ask = (query: string, accept: string) =>
  request(app)
    .post(`/v1/proof${query}`)
    .set('Content-Type', MUSICXML)
    .set('Accept', accept)
    .buffer(true)
    .parse((response, done) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.on('end', () => done(null, Buffer.concat(chunks)));
    })
    .send(SCORE);

describe('a proofread score over HTTP', () => {
  it('comes as a report where nothing else is asked for', async () => {
    const { headers, body } = await ask('', '*/*');
    expect(headers['content-type']).toMatch(/^application\/json/u);
    expect(JSON.parse(String(body)).repair.edits).toMatchObject([
      { sentence: 'Print C♯ instead of C♭ at bar 2, beat 1.' },
    ]);
  });

  it('comes as a page with the fault numbered and the edit beside it, and says how many there are', async () => {
    const { headers, body } = await ask('', 'image/svg+xml');
    expect(headers['content-type']).toMatch(/^image\/svg\+xml/u);
    expect(headers['tringle-page-count']).toBe('1');
    expect(headers.link).toContain('rel="last"');
    expect(String(body)).toContain('class="proof-fault"');
    expect(String(body)).toContain('class="proof-edit"');
  });

  it('comes as a PDF with the names that are asked for', async () => {
    const { headers, body } = await ask('?naming=german&paper=letter', 'application/pdf');
    expect(headers['content-type']).toBe('application/pdf');
    expect(headers['content-disposition']).toContain('proof.pdf');
    expect(String(body.subarray(0, 5))).toBe('%PDF-');
  });

  it.each([
    ['by the option repair', '?repair=true', '*/*'],
    ['by its media type', '', MUSICXML],
  ])('comes as the corrected file, asked for %s', async (_, query, accept) => {
    const { headers, body } = await ask(query, accept);
    expect(headers['content-type']).toBe(MUSICXML);
    expect(String(body)).toBe(SCORE.replace('C♭', 'C♯'));
  });

  it('comes with the chosen edits alone', async () => {
    expect(String((await ask('?edits=', MUSICXML)).body)).toBe(SCORE);
    expect(String((await ask('?edits=0', MUSICXML)).body)).toBe(SCORE.replace('C♭', 'C♯'));
    expect(JSON.parse(String((await ask('?edits=1', MUSICXML)).body)).detail).toContain('edits 0 to 0');
    expect((await ask('?edits=0', 'application/json')).status).toBe(400);
  });

  it('is refused in a form that it cannot have', async () => {
    const page = await ask('?page=2', 'image/svg+xml');
    expect(JSON.parse(String(page.body)).type).toContain('page-out-of-range');
    const misplaced = await ask('?page=1', 'application/pdf');
    expect(misplaced.status).toBe(400);
    const repaired = await ask('?repair=true', 'application/pdf');
    expect(repaired.status).toBe(406);
  });
});
