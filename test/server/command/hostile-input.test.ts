import { spawnSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const path = (from: string): string => fileURLToPath(new URL(`../../../${from}`, import.meta.url));

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tringle-hostile-'));
  copyFileSync(path('server/demo/lanterns-at-the-lock.musicxml'), join(folder, 'part.musicxml'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const run = (...words: string[]) =>
  spawnSync(process.execPath, [path('dist/server/cli.js'), ...words], {
    cwd: folder,
    encoding: 'utf8',
    timeout: 20_000,
    env: { PATH: process.env.PATH },
  });

describe('files for the command that are made to harm', () => {
  it.each([
    ['nested lists', `{"part":${'['.repeat(8_000)}${']'.repeat(8_000)}}`, 'nested deeper'],
    ['a long name', `{"${'x'.repeat(1_900_000)}":1}`, 'at most 300000'],
    ['many values', `{"pins":[${'0,'.repeat(50_000)}0]}`, 'more than'],
  ])('end with 1 for options with %s', (_what, content, reason) => {
    writeFileSync(join(folder, 'options.json'), content);
    for (const flag of ['--options', '--decisions']) {
      const { status, stderr } = run('plan', 'part.musicxml', flag, 'options.json');
      expect({ status, told: stderr.includes(reason) }, stderr).toEqual({ status: 1, told: true });
      expect(stderr.length).toBeLessThan(500);
    }
  });

  it('are not read past the limit: a score of 1.5 GB', () => {
    const big = join(folder, 'big.musicxml');
    writeFileSync(big, '');
    truncateSync(big, 1_500_000_000);
    const { status, stderr } = run('plan', 'big.musicxml');
    expect({ status, stderr }).toEqual({
      status: 1,
      stderr:
        'tringle: big.musicxml: The file has 1500000000 bytes; at most 100000000 are accepted. Export the harp part alone, or one movement or tune at a time.\n',
    });
  });

  it.skipIf(!existsSync('/dev/zero'))('are not read past the limit: a device that never ends', () => {
    for (const words of [
      ['plan', '/dev/zero'],
      ['plan', 'part.musicxml', '--options', '/dev/zero'],
      ['plan', 'part.musicxml', '--decisions', '/dev/zero'],
    ]) {
      const { status, stderr } = run(...words);
      expect(status, stderr).toBe(1);
      expect(stderr).toMatch(/at most \d+ are accepted/);
    }
  });
});
