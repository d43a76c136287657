import { afterEach, describe, expect, it, vi } from 'vitest';
import { type AnnotatorPool, createPool, type PoolSettings } from '../../server/pool.ts';

const pools: AnnotatorPool[] = [];

const start = (changes: Partial<PoolSettings> = {}): AnnotatorPool => {
  const pool = createPool({
    workerFile: new URL('./pool-worker.mjs', import.meta.url).href,
    threads: 1,
    queue: 4,
    timeLimitMs: 20_000,
    heapLimitMb: 64,
    ...changes,
  });
  pools.push(pool);
  return pool;
};

afterEach(async () => {
  await Promise.all(pools.splice(0).map((pool) => pool.close()));
});

const forEver = new AbortController().signal;

/** A job for the test worker, which does what the part says: wait so many milliseconds, or misbehave. */
const run = (pool: AnnotatorPool, part: string, signal = forEver) =>
  pool.annotate({ bytes: new TextEncoder().encode('score'), options: { part }, form: 'svg' }, signal);

const expectService = async (pool: AnnotatorPool): Promise<void> => {
  expect(await run(pool, '0')).toMatchObject({ ok: true, value: { text: 'score', form: 'svg' } });
};

describe('a pool of renderers', () => {
  it('hands a score to a thread and its answer back, and leaves the bytes with the caller', async () => {
    const pool = start();
    const bytes = new TextEncoder().encode('<mei/>');
    const outcome = await pool.annotate({ bytes, options: {}, form: 'pdf' }, forEver);
    expect(outcome).toMatchObject({ ok: true, value: { text: '<mei/>', form: 'pdf' } });
    expect(new TextDecoder().decode(bytes)).toBe('<mei/>');
  });

  it('hands on what a renderer refuses', async () => {
    expect(await run(start(), 'refuse')).toEqual({ ok: false, problem: { code: 'no-notes', part: 'P1' } });
  });

  it('works on as many scores at once as it has threads', async () => {
    const pool = start({ threads: 2 });
    const outcomes = await Promise.all([run(pool, '300'), run(pool, '300')]);
    const threadIds = outcomes.map((outcome) =>
      outcome.ok && 'threadId' in outcome.value ? outcome.value.threadId : null,
    );
    expect(new Set(threadIds).size).toBe(2);
    expect(threadIds).not.toContain(null);
  });

  it('ends a renderer that is stuck, and goes on', async () => {
    const pool = start({ timeLimitMs: 500 });
    expect(await run(pool, 'stuck')).toEqual({
      ok: false,
      problem: { code: 'timed-out', limitSeconds: 0.5 },
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
    const log = vi.spyOn(console, 'error').mockImplementation(() => {});
    expect(await run(pool, 'fail-later')).toMatchObject({ problem: { code: 'no-parts' } });
    await vi.waitFor(() => expect(log).toHaveBeenCalledOnce());
    expect(String(log.mock.calls[0]?.[1])).toContain('between two scores');
    log.mockRestore();
    await expectService(pool);
  });

  it('does not let a score wait for threads that never start', async () => {
    const log = vi.spyOn(console, 'error').mockImplementation(() => {});
    const pool = start({ workerFile: new URL('./no-such-worker.mjs', import.meta.url).href });
    await expect(run(pool, '0')).rejects.toThrow(/no-such-worker/);
    await vi.waitFor(() => expect(pool.state().threads).toBe(0), 5_000);
    await expect(run(pool, '0')).rejects.toThrow('no worker starts');
    await expect(run(pool, '0')).rejects.toThrow('no worker starts');
    log.mockRestore();
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
