import { Worker } from 'node:worker_threads';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Progress } from '../../../server/threads/job.ts';
import { createPool, type Pool, type PoolSettings } from '../../../server/threads/worker-pool.ts';

/** What the test worker is told to do: wait so many milliseconds, or misbehave. */
interface Errand {
  readonly bytes: Uint8Array;
  readonly part?: string;
}

const ANY = Number.POSITIVE_INFINITY;

type TestPool = Pool<Errand>;

const pools: TestPool[] = [];

const watch = { onWork: vi.fn(), onRestart: vi.fn(), onIdleFailure: vi.fn() };

const start = (changes: Partial<PoolSettings<Errand>> = {}): TestPool => {
  vi.clearAllMocks();
  const pool = createPool<Errand>(
    {
      name: 'test',
      workerFile: new URL('./pool-worker.mjs', import.meta.url).href,
      helps: false,
      ceilings: [ANY],
      costOf: () => 0,
      spares: 0,
      queue: 4,
      timeLimitMs: 20_000,
      heapLimitMb: 64,
      ...changes,
    },
    watch,
  );
  pools.push(pool);
  return pool;
};

afterEach(async () => {
  await Promise.all(pools.splice(0).map((pool) => pool.close()));
});

const forEver = new AbortController().signal;

const run = (pool: TestPool, part: string, signal = forEver) =>
  pool.perform({ bytes: new TextEncoder().encode('score'), part }, signal);

/** What the test worker says in its answer. */
const told = (outcome: Awaited<ReturnType<TestPool['perform']>>) => {
  if (!outcome.ok) throw new Error(outcome.problem.code);
  return JSON.parse(new TextDecoder().decode(outcome.value.body)) as { text: string; threadId: number };
};

const expectService = async (pool: TestPool): Promise<void> => {
  expect(told(await run(pool, '0')).text).toBe('score');
};

describe('a pool of renderers', () => {
  it('hands a score to a thread and its answer back, and leaves the bytes with the caller', async () => {
    const pool = start();
    const bytes = new TextEncoder().encode('<mei/>');
    expect(told(await pool.perform({ bytes }, forEver)).text).toBe('<mei/>');
    expect(new TextDecoder().decode(bytes)).toBe('<mei/>');
  });

  it('hands on what a renderer refuses', async () => {
    expect(await run(start(), 'refuse')).toEqual({ ok: false, problem: { code: 'no-notes', part: 'P1' } });
  });

  it('works on as many scores at once as it has threads', async () => {
    const pool = start({ ceilings: [ANY, ANY] });
    const outcomes = await Promise.all([run(pool, '300'), run(pool, '300')]);
    const threadIds = outcomes.map((outcome) => told(outcome).threadId);
    expect(new Set(threadIds).size).toBe(2);
  });

  it('ends a renderer that is stuck, and goes on', async () => {
    const pool = start({ timeLimitMs: 2_000 });
    expect(await run(pool, 'stuck')).toEqual({
      ok: false,
      problem: { code: 'timed-out', limitSeconds: 2 },
    });
    await expectService(pool);
  });

  it('does not count waiting as work: a score behind a stuck one has its full time', async () => {
    const pool = start({ timeLimitMs: 1_500 });
    const [stuck, patient] = await Promise.all([run(pool, 'stuck'), run(pool, '300')]);
    expect(stuck).toMatchObject({ problem: { code: 'timed-out' } });
    expect(patient).toMatchObject({ ok: true });
  });

  it.each([
    ['ends its thread', 'exit', /worker exited/],
    ['throws', 'throw', /the renderer failed/],
    ['needs too much memory', 'fill-memory', /memory/],
  ])('survives a renderer that %s', async (_what, part, reason) => {
    const pool = start();
    await expect(run(pool, part)).rejects.toThrow(reason);
    await expectService(pool);
    await expectService(pool);
  });

  it('survives a thread that dies between two scores', async () => {
    const pool = start();
    expect(await run(pool, 'fail-later')).toMatchObject({ problem: { code: 'no-parts' } });
    await vi.waitFor(() => expect(watch.onIdleFailure).toHaveBeenCalledOnce());
    expect(String(watch.onIdleFailure.mock.calls[0]?.[0])).toContain('between two scores');
    await expectService(pool);
  });

  it('has a spare thread ready for the one that it has to end', async () => {
    const pool = start({ spares: 1, timeLimitMs: 1_000 });
    await expectService(pool);
    const marker = new Worker('', { eval: true });
    const nextThread = marker.threadId;
    await marker.terminate();
    const [stuck, next] = [run(pool, 'stuck'), run(pool, '0')];
    expect(pool.state()).toMatchObject({ working: 1, waiting: 1 });
    expect(await stuck).toMatchObject({ problem: { code: 'timed-out' } });
    // Threads are numbered in the order in which they are started.
    expect(told(await next).threadId).toBeLessThan(nextThread);
    await vi.waitFor(() => expect(watch.onRestart).toHaveBeenCalledOnce());
  });

  it('tells when stages begin, and how long they took', async () => {
    const stages: Progress[] = [];
    const bytes = new TextEncoder().encode('score');
    await start().perform({ bytes, part: 'stages' }, forEver, (progress) => stages.push(progress));
    await vi.waitFor(() => expect(stages).toHaveLength(2));
    expect(stages).toEqual([
      { stage: 'read', bars: null },
      { stage: 'plan', bars: 7 },
    ]);
    expect(watch.onWork).toHaveBeenCalledWith({ read: 1, plan: 2 });
  });

  it('tells every page before the outcome, however late they are told', async () => {
    const numbers: number[] = [];
    const bytes = new Uint8Array();
    await start().perform({ bytes, part: 'pages' }, forEver, undefined, ({ number }) => numbers.push(number));
    expect(numbers).toEqual(Array.from({ length: 40 }, (_, i) => i + 1));
  });

  it('lets the patient wait beyond the queue', async () => {
    const pool = start({ queue: 0 });
    const first = run(pool, '200');
    const patient = pool.performUnlimited({ bytes: new Uint8Array(), part: '0' }, forEver);
    expect(await run(pool, '0')).toMatchObject({ problem: { code: 'busy' } });
    expect(await first).toMatchObject({ ok: true });
    expect(await patient).toMatchObject({ ok: true });
  });

  it('does not let a score wait for threads that never start', async () => {
    const pool = start({ workerFile: new URL('./no-such-worker.mjs', import.meta.url).href });
    await expect(run(pool, '0')).rejects.toThrow(/no-such-worker/);
    await vi.waitFor(() => expect(pool.state().threads).toBe(0), 5_000);
    await expect(run(pool, '0')).rejects.toThrow('no worker starts');
    await expect(run(pool, '0')).rejects.toThrow('no worker starts');
  });

  it('turns away what it has no room for, and takes more once there is room', async () => {
    const pool = start({ queue: 1 });
    const first = run(pool, '300');
    const second = run(pool, '0');
    expect(pool.state()).toEqual({ threads: 1, working: 1, waiting: 1, queue: 1 });
    expect(await run(pool, '0')).toMatchObject({ problem: { code: 'busy' } });
    expect(await first).toMatchObject({ ok: true });
    expect(await second).toMatchObject({ ok: true });
    expect(pool.state()).toMatchObject({ working: 0, waiting: 0 });
    await expectService(pool);
  });

  it('gives up the work of a client that has gone, at once', async () => {
    const pool = start();
    const client = new AbortController();
    const stuck = run(pool, 'stuck', client.signal);
    setTimeout(() => client.abort(), 200);
    expect(await stuck).toEqual({ ok: false, problem: { code: 'cancelled' } });
    await expectService(pool);
  });

  it('forgets a client that goes away while it waits', async () => {
    const pool = start();
    const first = run(pool, '300');
    const client = new AbortController();
    const waiting = run(pool, '0', client.signal);
    client.abort();
    expect(await waiting).toEqual({ ok: false, problem: { code: 'cancelled' } });
    expect(pool.state().waiting).toBe(0);
    expect(await first).toMatchObject({ ok: true });
  });

  it('gives up everything when it closes', async () => {
    const pool = start();
    const jobs = [run(pool, 'stuck'), run(pool, '0')];
    await new Promise((resolve) => setTimeout(resolve, 200));
    await pool.close();
    for (const outcome of await Promise.all(jobs)) {
      expect(outcome).toEqual({ ok: false, problem: { code: 'cancelled' } });
    }
    expect(await run(pool, '0')).toMatchObject({ problem: { code: 'cancelled' } });
  });
});
