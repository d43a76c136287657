import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { writeLongPart } from '../bench/long-part.ts';
import { demoFile } from '../demo-score.ts';
import { measure, type RunningService, SCORE, send, startService } from './running-service.ts';

// The service in a process of its own, and what a network and a machine do to it.

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

const stop = async (service: RunningService): Promise<void> => {
  service.process.kill('SIGKILL');
  await service.ended;
};

let service: RunningService;
beforeAll(async () => {
  service = await startService({ THREADS: '1', UPLOAD_SECONDS: '2', TIME_LIMIT_SECONDS: '30' });
});
afterAll(() => stop(service));

const sockets: Socket[] = [];
afterEach(() => {
  for (const socket of sockets.splice(0)) socket.destroy();
});

const dial = async (head: string): Promise<Socket> => {
  const { hostname, port } = new URL(service.url);
  const socket = connect(Number(port), hostname);
  sockets.push(socket);
  socket.on('error', () => {});
  await new Promise((resolve) => socket.once('connect', resolve));
  socket.write(
    `POST /v1/annotate HTTP/1.1\r\nHost: harp\r\nContent-Type: application/xml\r\n${head}\r\n\r\n`,
  );
  return socket;
};

const answerOf = (socket: Socket): Promise<string> =>
  new Promise((resolve) => {
    let all = '';
    socket.on('data', (data) => {
      all += String(data);
    });
    socket.once('close', () => resolve(all));
  });

const expectService = async (): Promise<void> => {
  const response = await send(service.url, '/v1/annotate', 'application/pdf');
  expect(response.status).toBe(200);
  expect((await response.arrayBuffer()).byteLength).toBeGreaterThan(20_000);
};

describe('a service', () => {
  it('answers 408 to one who sends a byte a second', async () => {
    const socket = await dial(`Content-Length: ${SCORE.length}`);
    const answer = answerOf(socket);
    const drip = setInterval(() => socket.write('<'), 1_000);
    const text = await answer;
    clearInterval(drip);
    expect(text).toMatch(/^HTTP\/1\.1 408 /);
    expect(text).toContain('urn:tringle:problem:request-timeout');
  }, 15_000);

  it('holds nothing of an upload that is cut off in the middle', async () => {
    const socket = await dial(`Content-Length: ${SCORE.length}`);
    socket.write(SCORE.subarray(0, SCORE.length / 2));
    await vi.waitFor(async () =>
      expect(await measure(service.url, 'tringle_upload_bytes')).toBeGreaterThan(0),
    );
    socket.destroy();
    await vi.waitFor(async () => expect(await measure(service.url, 'tringle_upload_bytes')).toBe(0));
    await expectService();
  });

  it('replaces a worker whose client goes away in mid-render, and draws on with the spare', async () => {
    const before = await measure(service.url, 'tringle_worker_restarts_total{pool="drawing"}');
    // One that is not known yet: what was drawn before would be there at once.
    const long = Buffer.from(writeLongPart(300));
    const socket = await dial(`Content-Length: ${long.length}`);
    socket.write(long);
    await vi.waitFor(
      async () =>
        expect(await measure(service.url, 'tringle_pool_jobs{pool="drawing",state="working"}')).toBe(1),
      { timeout: 5_000, interval: 5 },
    );
    socket.destroy();
    await expectService();
    await vi.waitFor(async () =>
      expect(await measure(service.url, 'tringle_worker_restarts_total{pool="drawing"}')).toBe(before + 1),
    );
  });

  it('plans in the meantime', async () => {
    const drawn = send(service.url, '/v1/annotate', 'application/pdf');
    await pause(20);
    const since = performance.now();
    expect((await send(service.url, '/v1/plan', 'application/json')).status).toBe(200);
    const planned = performance.now() - since;
    expect((await drawn).status).toBe(200);
    expect(planned).toBeLessThan(performance.now() - since);
  });
});

/** A folder with hardly any room; null where this machine may not make one. */
const makeSmallFolder = (): string | null => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-small-'));
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', 'size=300k', 'tmpfs', folder]);
  if (mounted.status === 0) return folder;
  rmSync(folder, { recursive: true });
  return null;
};

const small = makeSmallFolder();
afterAll(() => {
  if (small === null) return;
  spawnSync('umount', [small]);
  rmSync(small, { recursive: true, force: true });
});

describe.skipIf(small === null)(
  `a full disk${small === null ? ' (skipped: this machine may mount no small one)' : ''}`,
  () => {
    let filled: RunningService;
    beforeAll(async () => {
      filled = await startService({ THREADS: '1', JOB_FOLDER: small!, TMPDIR: small! });
      writeFileSync(join(small!, 'filler'), new Uint8Array(200_000));
    });
    afterAll(() => stop(filled));

    it('refuses jobs with 507, and lets scores be annotated all the same', async () => {
      const job = await fetch(`${filled.url}/v1/jobs`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/xml' },
        body: new Uint8Array(demoFile('lanterns-at-the-lock')),
      });
      expect(job.status).toBe(507);
      expect(await job.json()).toMatchObject({ type: 'urn:tringle:problem:storage-full' });
      const drawn = await send(filled.url, '/v1/annotate', 'application/pdf');
      expect(drawn.status).toBe(200);
      expect((await fetch(`${filled.url}/readyz`)).status).toBe(200);
    });

    it('is a problem of the score whose result it has no room for', async () => {
      rmSync(join(small!, 'filler'));
      writeFileSync(join(small!, 'filler'), new Uint8Array(100_000));
      const job = await fetch(`${filled.url}/v1/jobs?output=report`, {
        method: 'POST',
        headers: { 'Content-Type': 'application/xml' },
        body: new Uint8Array(demoFile('lanterns-at-the-lock')),
      });
      expect(job.status).toBe(202);
      const { links } = (await job.json()) as { links: { events: string; result: string } };
      const events = await (await fetch(`${filled.url}${links.events}`)).text();
      expect(events).toContain('urn:tringle:problem:storage-full');
      expect((await fetch(`${filled.url}${links.result}`)).status).toBe(507);
    });
  },
);

describe('settings that cannot be used', () => {
  it.each([
    [{ THREADS: 'many' }, 'THREADS'],
    [{ API_KEYS: 'short' }, 'API_KEYS'],
    [{ REDIS_URL: 'http://x' }, 'REDIS_URL'],
  ])('%j stop the service before it starts, and are not repeated', async (environment, name) => {
    const told = await startService(environment).then(
      () => 'it started',
      ({ message }: Error) => message,
    );
    expect(told).toContain(`${name} cannot be used`);
    expect(told).not.toContain(Object.values(environment)[0]);
  });
});
