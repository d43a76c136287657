import { zipSync } from 'fflate';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { oneNoteBars } from '../../bench/hostile-scores.ts';
import { measure, type RunningService, SCORE, send, startService } from '../running-service.ts';

let service: RunningService;
beforeAll(async () => {
  service = await startService({ THREADS: '1', LOG_LEVEL: 'error' });
});
afterAll(async () => {
  service.process.kill('SIGKILL');
  await service.ended;
});

it('a small plan does not wait for scores that take long, however many of these are sent before it', async () => {
  const stop = new AbortController();
  let ended = 0;
  const long = new TextEncoder().encode(oneNoteBars(9_000));
  const hostile = Array.from({ length: 4 }, () =>
    fetch(`${service.url}/v1/plan`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/xml' },
      body: new Uint8Array(long),
      signal: stop.signal,
    })
      .catch(() => null)
      .finally(() => {
        ended += 1;
      }),
  );
  await vi.waitFor(
    async () => expect(await measure(service.url, 'tringle_pool_jobs{pool="long",state="working"}')).toBe(1),
    { timeout: 20_000 },
  );
  for (let number = 0; number < 3; number += 1) {
    expect((await send(service.url, '/v1/plan', 'application/json', SCORE)).status).toBe(200);
  }
  // Nor where it is compressed: what is written in it counts.
  const packed = zipSync({ 'score.musicxml': SCORE });
  expect((await send(service.url, '/v1/plan', 'application/json', packed)).status).toBe(200);
  expect(await measure(service.url, 'tringle_pool_jobs{pool="long",state="waiting"}')).toBe(3);
  // The dearest take one thread of the two for what takes long; the other takes a part of some hundred bars.
  const middling = new TextEncoder().encode(oneNoteBars(400));
  expect((await send(service.url, '/v1/plan', 'application/json', middling)).status).toBe(200);
  expect(ended).toBe(0);
  stop.abort();
  await Promise.all(hostile);
}, 120_000);
