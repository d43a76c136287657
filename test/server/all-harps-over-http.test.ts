import { setTimeout as pause } from 'node:timers/promises';
import { unzipSync, zipSync } from 'fflate';
import request from 'supertest';
import { afterAll, describe, expect, it } from 'vitest';
import { openScore } from '../../engine/score/open.ts';
import { FERRY_BELLS, oneHarp } from '../two-harps.ts';
import { fakeService } from './fake-service.ts';
import { startPool } from './threads/real-pools.ts';

// The real service with real threads. Threads need JavaScript: `npm test` builds it first.
const [drawing, computing] = [startPool('drawing-worker'), startPool('compute-worker')];
const { app } = fakeService({
  annotate: drawing.perform,
  compute: computing.perform,
  uploadLimitBytes: 50_000_000,
});
afterAll(() => Promise.all([drawing.close(), computing.close()]));

const asBytes = (response: request.Response, done: (error: Error | null, body: Buffer) => void): void => {
  const chunks: Buffer[] = [];
  response.on('data', (chunk: Buffer) => chunks.push(chunk));
  response.on('end', () => done(null, Buffer.concat(chunks)));
};

/** The files of a job over every harp, once it is done. */
const filesOfJob = async (
  bytes: Uint8Array,
  output: string,
): Promise<Readonly<Record<string, Uint8Array>>> => {
  const begun = await request(app)
    .post(`/v1/jobs?allHarps=true&output=${output}`)
    .set('Content-Type', 'application/zip')
    .send(Buffer.from(bytes));
  expect(begun.status, begun.text).toBe(202);
  const { id } = begun.body as { readonly id: string };
  for (;;) {
    const { body } = await request(app).get(`/v1/jobs/${id}`);
    if (body.state === 'done' || body.state === 'failed') break;
    await pause(50);
  }
  const result = await request(app).get(`/v1/jobs/${id}/result`).buffer(true).parse(asBytes);
  expect(result.status).toBe(200);
  expect(result.headers['content-type']).toBe('application/zip');
  return unzipSync(result.body as Buffer);
};

const CONCERT = zipSync({
  'bells.musicxml': FERRY_BELLS,
  'lamps.musicxml': oneHarp(['C4 E4 G4 C5 / R']),
});

describe('a job over every harp', () => {
  it('of one score gives a part each, the score of both and the file with all markings', async () => {
    const files = await filesOfJob(FERRY_BELLS, 'pdf');
    expect(Object.keys(files)).toEqual(['Harp I.pdf', 'Harp II.pdf', 'all harps.pdf', 'all harps.musicxml']);
    for (const [name, content] of Object.entries(files).filter(([each]) => each.endsWith('.pdf')))
      expect(new TextDecoder().decode(content.subarray(0, 5)), name).toBe('%PDF-');
    for (const part of ['Harp I', 'Harp II']) {
      const read = openScore(files['all harps.musicxml']!, { part });
      expect(read.ok && read.value.markings.length).toBeGreaterThan(1);
    }
  });

  it('of an archive gives every score a folder', async () => {
    const files = await filesOfJob(CONCERT, 'report');
    expect(Object.keys(files).sort()).toEqual([
      'bells/Harp I.json',
      'bells/Harp II.json',
      'bells/all harps.musicxml',
      'lamps/Harp.json',
      'lamps/all harps.musicxml',
    ]);
    const report = JSON.parse(new TextDecoder().decode(files['bells/Harp II.json']));
    expect(JSON.stringify(report)).toContain('Harp II');
    expect(report.setting).toContain('♯');
  });

  it('of an archive as the scores’ own files gives one file with all markings each', async () => {
    const files = await filesOfJob(CONCERT, 'source');
    const names = Object.keys(files);
    expect(names.map((name) => name.split('/')[0]!.replace(/\..*/, ''))).toEqual(['bells', 'lamps']);
    const bells = files[names[0]!]!;
    for (const part of ['Harp I', 'Harp II']) {
      const read = openScore(bells, { part });
      expect(read.ok && read.value.markings.length).toBeGreaterThan(1);
    }
  });
});
