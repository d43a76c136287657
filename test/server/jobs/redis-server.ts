import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Redis } from 'ioredis';

/** Debian's package redis-server; tests that need it skip where it is absent. */
export const isRedisThere = spawnSync('redis-server', ['--version']).status === 0;

export const REDIS_ABSENT = isRedisThere ? '' : ' (skipped: there is no redis-server; .ci/run installs it)';

export const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });

export interface RunningRedis {
  readonly url: string;
  readonly stop: () => Promise<void>;
}

/** A Redis of its own, on loopback, that keeps nothing on disk. */
export const startRedis = async (): Promise<RunningRedis> => {
  const port = await freePort();
  const folder = mkdtempSync(join(tmpdir(), 'tringle-redis-'));
  const flags = ['--port', `${port}`, '--bind', '127.0.0.1', '--save', '', '--dir', folder];
  const server: ChildProcess = spawn('redis-server', flags, { stdio: 'ignore' });
  const ended = new Promise((resolve) => server.once('exit', resolve));
  const url = `redis://127.0.0.1:${port}`;
  const client = new Redis(url, { retryStrategy: () => 100, maxRetriesPerRequest: 100 });
  client.on('error', () => {});
  await client.ping();
  client.disconnect();
  return {
    url,
    stop: async () => {
      server.kill('SIGTERM');
      await ended;
      rmSync(folder, { recursive: true, force: true });
    },
  };
};
