import { strToU8, zipSync } from 'fflate';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { listTunes } from '../../../engine/score/abc/book/list-tunes.ts';
import { unpackEntry } from '../../../engine/score/file/unzip.ts';
import { replyJson } from '../../../server/http/reply.ts';
import type { JobQueue, JobStatus } from '../../../server/jobs/job.ts';
import { LocalQueue } from '../../../server/jobs/local-queue.ts';
import type { JobWorkers } from '../../../server/jobs/run-job.ts';
import { SharedQueue } from '../../../server/jobs/shared-queue.ts';
import type { AnnotateJob, ComputeJob, Perform } from '../../../server/threads/job.ts';
import { writeLongPart } from '../../bench/long-part.ts';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { memoryStore } from '../fake-service.ts';
import { measure, type RunningService, startService } from '../running-service.ts';
import { isRedisThere, REDIS_ABSENT, type RunningRedis, startRedis } from './redis-server.ts';

const ORDER = { fileName: 'part.xml', choice: {}, output: 'pdf' } as const;

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** Gives each score back in capitals; “slow” takes until it is given up, “bad” is refused, “bug” throws. */
const annotate: Perform<AnnotateJob> = async ({ bytes, choice }, signal, tell) => {
  const score = choice.tune ?? text(bytes);
  tell?.({ stage: 'read', bars: null });
  if (score === 'slow') {
    await new Promise((resolve) => signal.addEventListener('abort', resolve));
    return { ok: false, problem: { code: 'cancelled' } };
  }
  if (score === 'bad') return { ok: false, problem: { code: 'no-parts' } };
  if (score === 'bug') throw new Error('a bug');
  return { ok: true, value: { headers: { 'Content-Type': 'x' }, body: strToU8(score.toUpperCase()) } };
};

const compute: Perform<ComputeJob> = async (job) => {
  if (job.kind === 'list-tunes') {
    const listed = listTunes(job.bytes);
    return listed.ok ? { ok: true, value: replyJson(listed.value ?? []) } : listed;
  }
  if (job.kind !== 'unpack') throw new Error(job.kind);
  const unpacked = unpackEntry(job.bytes, job.entry);
  return unpacked.ok ? { ok: true, value: { headers: {}, body: unpacked.value } } : unpacked;
};

const recordBug = vi.fn(() => 'incident');
const workers: Omit<JobWorkers, 'store'> = { annotate, compute, mostScores: 5, limitMs: 60_000, recordBug };
const settings = { concurrency: 1, waiting: 2, keepMs: 60_000 };

let redis: RunningRedis | null = null;
beforeAll(async () => {
  if (isRedisThere) redis = await startRedis();
});
afterAll(() => redis?.stop());

const open: JobQueue[] = [];
afterEach(async () => {
  await Promise.all(open.splice(0).map((queue) => queue.close(0)));
});

const kinds: readonly (readonly [string, boolean, () => JobQueue])[] = [
  ['in this process', true, () => new LocalQueue({ ...workers, store: memoryStore() }, settings)],
  [
    `in Redis${REDIS_ABSENT}`,
    isRedisThere,
    () => new SharedQueue(workers, { ...settings, url: redis!.url, lockMs: 2_000, tellConnection: () => {} }),
  ],
];

describe.each(kinds)('jobs %s', (_name, isThere, make) => {
  const start = (): JobQueue => {
    const queue = make();
    open.push(queue);
    return queue;
  };

  const submit = async (queue: JobQueue, bytes: string | Uint8Array): Promise<string> => {
    const submitted = await queue.submit(ORDER, typeof bytes === 'string' ? strToU8(bytes) : bytes);
    if (!submitted.ok) throw new Error(submitted.problem.code);
    return submitted.value;
  };

  const until = async (queue: JobQueue, id: string, state: JobStatus['state']): Promise<JobStatus> =>
    vi.waitFor(
      async () => {
        const status = await queue.find(id);
        expect(status?.state).toBe(state);
        return status!;
      },
      { timeout: 20_000, interval: 20 },
    );

  it.skipIf(!isThere)('are done, and their results kept for a time that they state', async () => {
    const queue = start();
    const before = Date.now();
    const id = await submit(queue, 'harp');
    const status = await until(queue, id, 'done');
    expect(status.files).toMatchObject([{ name: 'part.xml', state: 'done', problem: null }]);
    expect(status.expiresAt).toBeGreaterThan(before + settings.keepMs - 1_000);
    expect(text((await queue.readResult(id, 0))!)).toBe('HARP');
  });

  it.skipIf(!isThere)('of an archive are done score by score, whatever befalls one of them', async () => {
    const queue = start();
    const scores = {
      'a.xml': 'one',
      'e.txt': 'no',
      '__MACOSX/._a.xml': 'no',
      'b/b.mei': 'bad',
      'c.mxl': 'bug',
      'd.musicxml': 'two',
    };
    const archive = zipSync(
      Object.fromEntries(Object.entries(scores).map(([name, score]) => [name, strToU8(score)])),
    );
    const id = await submit(queue, archive);
    const { files } = await until(queue, id, 'done');
    expect(files.map(({ name, state, problem }) => [name, state, problem?.code])).toEqual([
      ['a.xml', 'done', undefined],
      ['b/b.mei', 'failed', 'no-parts'],
      ['c.mxl', 'failed', 'internal'],
      ['d.musicxml', 'done', undefined],
      ['e.txt', 'skipped', undefined],
    ]);
    expect(text((await queue.readResult(id, 3))!)).toBe('TWO');
    expect(await queue.readResult(id, 1)).toBeNull();
  });

  it.skipIf(!isThere)(
    'take a tune book apart, alone or in an archive, and name a tune that fails',
    async () => {
      const queue = start();
      const tunes = [
        ['7', 'The Ford'],
        ['bad', 'The Flood'],
        ['9', ''],
      ];
      const book = tunes
        .map(([number, title]) => `X:${number}\n${title === '' ? '' : `T:${title}\n`}K:C\nCDEF|\n`)
        .join('\n');
      const told = [
        ['book-1-The Ford.abc', 'done', '7', undefined],
        ['book-2-The Flood.abc', 'failed', 'bad', 'no-parts'],
        ['book-3.abc', 'done', '9', undefined],
      ];
      const describeFiles = ({ files }: JobStatus) =>
        files.map(({ name, state, tune, problem }) => [name, state, tune?.number, problem?.code]);
      const alone = await queue.submit({ ...ORDER, fileName: 'book.abc' }, strToU8(book));
      if (!alone.ok) throw new Error(alone.problem.code);
      expect(describeFiles(await until(queue, alone.value, 'done'))).toEqual(told);
      expect(text((await queue.readResult(alone.value, 2))!)).toBe('9');
      const packed = zipSync({
        'a.xml': strToU8('one'),
        'b/book.abc': strToU8(book),
        'e.txt': strToU8('no'),
      });
      const id = await submit(queue, packed);
      expect(describeFiles(await until(queue, id, 'done'))).toEqual([
        ['a.xml', 'done', undefined, undefined],
        ...told.map(([name, ...others]) => [`b/${name}`, ...others]),
        ['e.txt', 'skipped', undefined, undefined],
      ]);
      expect(text((await queue.readResult(id, 3))!)).toBe('9');
      // One tune that is named is done alone; and more than a job takes are refused by their number.
      const one = await queue.submit({ ...ORDER, choice: { tune: '7' } }, strToU8(book));
      expect(describeFiles(await until(queue, one.ok ? one.value : '', 'done'))).toEqual([
        ['part.xml', 'done', undefined, undefined],
      ]);
      const many = await submit(queue, `${book}\n${book}`);
      expect((await until(queue, many, 'done')).files[0]?.problem).toEqual({
        code: 'too-many-scores',
        limit: 5,
        found: 6,
      });
    },
  );

  it.skipIf(!isThere)('that are no archive of scores fail by name', async () => {
    const queue = start();
    const broken = await submit(queue, zipSync({ 'a.xml': strToU8('one') }).subarray(0, 40));
    const empty = await submit(queue, zipSync({ 'a.txt': strToU8('one') }));
    expect((await until(queue, broken, 'done')).files[0]?.problem?.code).toBe('archive-corrupt');
    expect((await until(queue, empty, 'done')).files[0]?.problem?.code).toBe('archive-without-score');
  });

  it.skipIf(!isThere)('are refused where too many wait, and taken again when they no longer do', async () => {
    const queue = start();
    const slow = await submit(queue, 'slow');
    await until(queue, slow, 'working');
    const waiting = [await submit(queue, 'one'), await submit(queue, 'two')];
    expect(await queue.submit(ORDER, strToU8('three'))).toMatchObject({ problem: { code: 'busy' } });
    expect(await queue.count()).toEqual({ waiting: 2, working: 1 });
    expect(await queue.cancel(slow)).toBe(true);
    for (const id of waiting) await until(queue, id, 'done');
    await until(queue, await submit(queue, 'four'), 'done');
  });

  it.skipIf(!isThere)('are given up and forgotten when they are cancelled, working or waiting', async () => {
    const queue = start();
    const slow = await submit(queue, 'slow');
    const waiting = await submit(queue, 'one');
    await until(queue, slow, 'working');
    expect(await queue.cancel(waiting)).toBe(true);
    expect(await queue.cancel(slow)).toBe(true);
    expect(await queue.cancel(slow)).toBe(false);
    expect([await queue.find(slow), await queue.find(waiting)]).toEqual([null, null]);
    expect(await queue.readResult(slow, 0)).toBeNull();
    await until(queue, await submit(queue, 'next'), 'done');
  });

  it.skipIf(!isThere)('that were never there are not found', async () => {
    const queue = start();
    expect(await queue.find('nothing')).toBeNull();
    expect(await queue.cancel('nothing')).toBe(false);
    expect(await queue.readResult('nothing', 0)).toBeNull();
    expect(await queue.isReady()).toBe(true);
  });
});

describe('jobs in this process', () => {
  it('are forgotten after the time they are kept, with all they held', async () => {
    const store = memoryStore();
    const queue = new LocalQueue({ ...workers, store }, { ...settings, keepMs: 100 });
    open.push(queue);
    const submitted = await queue.submit(ORDER, strToU8('harp'));
    if (!submitted.ok) throw new Error(submitted.problem.code);
    await vi.waitFor(async () => expect(await queue.find(submitted.value)).toBeNull(), 5_000);
    await vi.waitFor(() => expect(store.kept.size).toBe(0));
  });
});

describe.skipIf(!isRedisThere)(`two machines with one Redis${REDIS_ABSENT}`, () => {
  const services: RunningService[] = [];
  afterEach(async () => {
    for (const service of services.splice(0)) {
      service.process.kill('SIGKILL');
      await service.ended;
    }
  });

  it('lose no job when one of them is killed in mid-job', async () => {
    const environment = { REDIS_URL: redis!.url, JOB_LOCK_SECONDS: '2', THREADS: '1', LOG_LEVEL: 'warn' };
    const [one, two] = await Promise.all([startService(environment), startService(environment)]);
    services.push(one, two);
    const ids = await Promise.all(
      Array.from({ length: 3 }, async () => {
        const response = await fetch(`${one.url}/v1/jobs?output=report`, {
          method: 'POST',
          headers: { 'Content-Type': 'application/zip' },
          body: zipSync({
            'a.musicxml': strToU8(writeLongPart(20)),
            'b.musicxml': strToU8(buildHarp(note('C4', 4))),
          }),
        });
        expect(response.status).toBe(202);
        return ((await response.json()) as { id: string }).id;
      }),
    );
    await vi.waitFor(async () => expect(await measure(one.url, 'tringle_jobs{state="working"}')).toBe(2), {
      timeout: 20_000,
      interval: 50,
    });
    two.process.kill('SIGKILL');
    for (const id of ids) {
      const events = await (await fetch(`${one.url}/v1/jobs/${id}/events`)).text();
      expect(events).toContain('event: end');
      const status = (await (await fetch(`${one.url}/v1/jobs/${id}`)).json()) as {
        state: string;
        files: { state: string }[];
      };
      expect(status.state).toBe('done');
      expect(status.files.map(({ state }) => state)).toEqual(['done', 'done']);
      const result = await fetch(`${one.url}/v1/jobs/${id}/result`);
      expect(result.headers.get('content-type')).toBe('application/zip');
      expect((await result.arrayBuffer()).byteLength).toBeGreaterThan(50_000);
    }
  }, 120_000);
});
