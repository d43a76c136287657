import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openFolderStore } from '../../../server/jobs/folder-store.ts';
import { type RunningService, SCORE, startService } from '../running-service.ts';

let parent = '';
beforeEach(() => {
  parent = mkdtempSync(join(tmpdir(), 'tringle-folders-'));
});
afterEach(() => {
  rmSync(parent, { recursive: true, force: true });
});

const KEEP_MS = 3_600_000;

const submit = async (service: RunningService): Promise<void> => {
  const job = await fetch(`${service.url}/v1/jobs?output=report`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/xml' },
    body: new Uint8Array(SCORE),
  });
  const { links } = (await job.json()) as { links: { events: string } };
  await (await fetch(`${service.url}${links.events}`)).text();
};

describe('results of jobs on disk', () => {
  it('are left alone while the process that made them lives, and gone after the next start where it was killed', async () => {
    const first = await startService({ THREADS: '1', JOB_FOLDER: parent });
    await submit(first);
    const [left] = readdirSync(parent);
    expect(readdirSync(join(parent, left!)).some((name) => name.endsWith('.0'))).toBe(true);
    const store = await openFolderStore(parent, KEEP_MS);
    expect(readdirSync(parent)).toContain(left);
    await store.close();
    expect(readdirSync(parent)).toEqual([left]);
    first.process.kill('SIGKILL');
    await first.ended;
    expect(readdirSync(parent)).toEqual([left]);
    const second = await startService({ THREADS: '1', JOB_FOLDER: parent });
    expect(readdirSync(parent)).not.toContain(left);
    expect(readdirSync(parent)).toHaveLength(1);
    second.process.kill('SIGTERM');
    await second.ended;
    expect(readdirSync(parent)).toEqual([]);
  });

  const leave = (name: string, owner: unknown, minutesAgo: number): string => {
    const folder = join(parent, name);
    mkdirSync(folder);
    writeFileSync(join(folder, 'owner.json'), JSON.stringify(owner));
    writeFileSync(join(folder, 'a.0'), 'result');
    const then = new Date(Date.now() - minutesAgo * 60_000);
    utimesSync(join(folder, 'owner.json'), then, then);
    return folder;
  };

  it('of a process that cannot be seen from here are removed when their time is over', async () => {
    const elsewhere = { pid: 1, space: 'another container' };
    const late = leave('tringle-jobs-1-a', elsewhere, 61);
    const early = leave('tringle-jobs-1-b', elsewhere, 59);
    const store = await openFolderStore(parent, KEEP_MS);
    expect([existsSync(late), existsSync(early)]).toEqual([false, true]);
    await store.close();
  });

  it('are removed while the service runs, too', async () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
    const store = await openFolderStore(parent, KEEP_MS);
    const late = leave('tringle-jobs-1-a', { pid: 1, space: 'another container' }, 61);
    vi.advanceTimersByTime(30_000);
    vi.useRealTimers();
    await vi.waitFor(() => expect(existsSync(late)).toBe(false));
    await store.close();
  });

  it('are all that is removed: no link, and nothing of another name', async () => {
    const kept = leave('my-jobs', { pid: 1, space: 'x' }, 1_000);
    symlinkSync(kept, join(parent, 'tringle-jobs-link'));
    writeFileSync(join(parent, 'tringle-jobs-file'), '');
    const store = await openFolderStore(parent, 1);
    await store.close();
    expect(readdirSync(parent).sort()).toEqual(['my-jobs', 'tringle-jobs-file', 'tringle-jobs-link']);
    expect(existsSync(join(kept, 'a.0'))).toBe(true);
  });
});
