import { spawn, spawnSync } from 'node:child_process';
import { closeSync, existsSync, openSync } from 'node:fs';
import { Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { watchOutput } from '../../../server/command/output-reader.ts';

const CLI = fileURLToPath(new URL('../../../dist/server/cli.js', import.meta.url));

/** Runs a command whose output is closed before it writes; tells how it ended. */
const runUnread = (...words: string[]): Promise<{ code: number | null; errors: string }> =>
  new Promise((resolve) => {
    const command = spawn(process.execPath, [CLI, ...words]);
    command.stdout.destroy();
    let errors = '';
    command.stderr.on('data', (chunk) => {
      errors += chunk;
    });
    command.on('close', (code) => resolve({ code, errors }));
  });

const failing = (code: string): Writable =>
  new Writable({ write: (_chunk, _encoding, done) => done(Object.assign(new Error(code), { code })) });

const settled = (): Promise<void> => new Promise((resolve) => setImmediate(resolve));

describe('a command whose output nobody reads on', () => {
  it('ends quietly', { timeout: 60_000 }, async () => {
    expect(await runUnread('glissandi', 'C whole tone')).toEqual({ code: 0, errors: '' });
  });

  it.skipIf(!existsSync('/dev/full'))('on a full disk is told (skipped where /dev/full is absent)', () => {
    const stdout = openSync('/dev/full', 'w');
    const { status, stderr } = spawnSync(process.execPath, [CLI, '--version'], {
      encoding: 'utf8',
      stdio: ['ignore', stdout, 'pipe'],
    });
    closeSync(stdout);
    expect({ status, stderr }).toEqual({
      status: 3,
      stderr: 'tringle: the output cannot be written: the disk is full\n',
    });
  });

  it('has no failure to tell, but a full disk is one', async () => {
    const [closed, full] = [failing('EPIPE'), failing('ENOSPC')];
    const watches = [closed, full].map(watchOutput);
    closed.write('a line');
    full.write('a line');
    await settled();
    expect(watches.map((watch) => watch.failure()?.message ?? null)).toEqual([null, 'ENOSPC']);
  });
});
