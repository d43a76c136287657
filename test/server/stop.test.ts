import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { writeLongPart } from '../bench/long-part.ts';
import { send, startService } from './running-service.ts';

const pause = (milliseconds: number): Promise<void> =>
  new Promise((resolve) => setTimeout(resolve, milliseconds));

const LONG = strToU8(writeLongPart(1_000));

it('a service that is told to stop under load ends within its time, and leaves nothing behind', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-stop-'));
  const service = await startService({ THREADS: '2', JOB_FOLDER: folder, STOP_SECONDS: '4' });
  const archive = zipSync(Object.fromEntries(Array.from({ length: 20 }, (_, i) => [`${i}.musicxml`, LONG])));
  const job = await fetch(`${service.url}/v1/jobs`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/zip' },
    body: new Uint8Array(archive),
  });
  const { links } = (await job.json()) as { links: { events: string } };
  const watched = fetch(`${service.url}${links.events}`)
    .then((response) => response.text())
    .catch(() => 'cut');
  const drawn = Array.from({ length: 4 }, () =>
    send(service.url, '/v1/annotate', 'application/pdf', LONG)
      .then(({ status }) => status)
      .catch(() => 0),
  );
  const slow = fetch(`${service.url}/v1/plan`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/xml' },
    body: new ReadableStream({ start: (controller) => controller.enqueue(strToU8('<mei>')) }),
    duplex: 'half',
  } as RequestInit).catch(() => null);
  await pause(1_500);
  const since = performance.now();
  service.process.kill('SIGTERM');
  const code = await service.ended;
  const took = performance.now() - since;
  // What containers are usually given before they are killed; that work alone takes longer.
  expect(took).toBeLessThan(10_000);
  expect(took).toBeGreaterThan(1_000);
  // By the signal where a thread was in the midst of native code, which nothing else ends.
  expect([0, 'SIGTERM']).toContain(service.process.signalCode ?? code);
  expect(readdirSync(folder)).toEqual([]);
  // Whoever still waited was told so.
  for (const status of await Promise.all(drawn)) expect([200, 503]).toContain(status);
  expect(await watched).toMatch(/event: end|cut/);
  await slow;
  rmSync(folder, { recursive: true, force: true });
  expect(existsSync(folder)).toBe(false);
}, 60_000);
