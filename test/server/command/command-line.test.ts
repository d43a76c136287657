import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import {
  copyFileSync,
  linkSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

// The program as users run it: `npm test` builds it first.
const built = (path: string): string =>
  fileURLToPath(new URL(`../../../dist/server/${path}`, import.meta.url));
const DEMO = fileURLToPath(new URL('../../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url));

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tringle-test-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const run = (...words: string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [built('cli.js'), ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: { PATH: process.env.PATH },
  });
  return { status, stdout, stderr };
};

const write = (name: string, content: string | Uint8Array): void =>
  writeFileSync(join(folder, name), content);
const read = (name: string): Buffer => readFileSync(join(folder, name));
const bringDemo = (name: string): void => copyFileSync(DEMO, join(folder, name));

const lines = (text: string): string[] => text.split('\n').filter((line) => line !== '');

describe('tringle annotate', () => {
  it('writes a PDF beside its input and sums up in a last line', () => {
    bringDemo('part.musicxml');
    const { status, stdout, stderr } = run('annotate', 'part.musicxml');
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(read('part.pdf').subarray(0, 5).toString()).toBe('%PDF-');
    expect(lines(stdout).at(-1)).toMatch(/^\d+ bars, \d+ moves, \d+ findings?.*, \d+ pages?: part\.pdf$/);
    expect(read('part.musicxml')).toEqual(readFileSync(DEMO));
  });

  it('writes a drawing a page', () => {
    bringDemo('part.musicxml');
    const { status, stdout } = run('annotate', 'part.musicxml', '-o', 'drawn.svg');
    expect(status).toBe(0);
    const pages = Number(/, (\d+) pages?: /.exec(stdout)?.[1]);
    const names = pages === 1 ? ['drawn.svg'] : Array.from({ length: pages }, (_, i) => `drawn-${i + 1}.svg`);
    expect(
      readdirSync(folder)
        .filter((name) => name.endsWith('.svg'))
        .sort(),
    ).toEqual(names.sort());
    for (const name of names) expect(read(name).toString('utf8')).toContain('<svg');
  });

  it('writes a report', () => {
    bringDemo('part.musicxml');
    expect(run('annotate', 'part.musicxml', '-o', 'report.json', '--part', 'P1').status).toBe(0);
    const report = JSON.parse(read('report.json').toString('utf8'));
    expect(report.part.ids).toEqual(['P1']);
    expect(report.moves.length).toBeGreaterThan(0);
  });

  it.each([
    ['an empty file', '', 'The file is empty'],
    ['a web page', '<html/>', 'not a MusicXML or MEI score'],
    ['broken XML', '<score-partwise><part', 'line 1, column'],
  ])('refuses %s in one line, ends with 1, and writes nothing', (_what, content, reason) => {
    write('bad.xml', content);
    const { status, stdout, stderr } = run('annotate', 'bad.xml');
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
    expect(lines(stderr).length).toBe(1);
    expect(stderr).toMatch(/^tringle: bad\.xml: /);
    expect(stderr).toContain(reason);
    expect(readdirSync(folder)).toEqual(['bad.xml']);
  });

  it('never writes over its input, under whatever name', () => {
    bringDemo('part.pdf');
    linkSync(join(folder, 'part.pdf'), join(folder, 'other.pdf'));
    for (const words of [['part.pdf'], ['part.pdf', '-o', './part.pdf'], ['part.pdf', '-o', 'other.pdf']]) {
      const { status, stderr } = run('annotate', ...words);
      expect(status).toBe(2);
      expect(stderr).toContain('never overwritten');
    }
    expect(read('part.pdf')).toEqual(readFileSync(DEMO));
  });

  it.each([
    ['missing.xml', 'no such file', []],
    ['.', 'it is a folder', ['-o', 'x.pdf']],
    ['part.xml', 'no such file or folder', ['-o', 'nowhere/x.pdf']],
  ])('ends with 3 where %s or its output cannot be used: %s', (input, reason, more) => {
    bringDemo('part.xml');
    const { status, stderr } = run('annotate', input, ...more);
    expect(status).toBe(3);
    expect(lines(stderr).length).toBe(1);
    expect(stderr).toContain(reason);
  });
});

describe('tringle', () => {
  it('tells its version and its help', () => {
    expect(run('--version').stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
    const help = run('--help');
    expect(help.status).toBe(0);
    for (const word of ['annotate', 'serve', '--part', '--port', '.svg', '70 a bug']) {
      expect(help.stdout).toContain(word);
    }
  });

  it('ends with 2 on a word it does not know', () => {
    const { status, stderr } = run('anotate', 'x.xml');
    expect(status).toBe(2);
    expect(stderr).toBe('tringle: there is no command “anotate”. Did you mean “annotate”?\n');
  });
});

describe('tringle serve', () => {
  const services: ChildProcess[] = [];
  afterEach(() => {
    for (const service of services.splice(0)) service.kill('SIGKILL');
  });

  const start = async (words: readonly string[], environment: Readonly<Record<string, string>>) => {
    const service = spawn(process.execPath, words, { env: { PATH: process.env.PATH, ...environment } });
    services.push(service);
    const ended = new Promise<number | null>((resolve) => service.once('exit', resolve));
    const line = await new Promise<string>((resolve, reject) => {
      service.stdout.once('data', (data) => resolve(String(data)));
      service.once('exit', () => reject(new Error('the service ended')));
    });
    return { service, ended, url: /http:\S+/.exec(line)?.[0] ?? '' };
  };

  it.each([
    ['by the command', [built('cli.js'), 'serve', '--port', '0'], {}],
    ['by itself', [built('main.js')], { PORT: '0', HOST: '127.0.0.1' }],
  ])('runs %s until it is told to stop', async (_what, words, environment) => {
    const { service, ended, url } = await start(words, environment);
    const health = await fetch(`${url}/healthz`);
    expect(health.status).toBe(200);
    service.kill('SIGTERM');
    expect(await ended).toBe(0);
    await expect(fetch(`${url}/healthz`)).rejects.toThrow();
  });

  it('lets a score under way end before it stops', async () => {
    const { service, ended, url } = await start([built('cli.js'), 'serve', '--port', '0'], {});
    const answer = fetch(`${url}/v1/annotate`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/octet-stream' },
      body: readFileSync(DEMO),
    });
    let answered = false;
    void answer.finally(() => {
      answered = true;
    });
    while (!answered) {
      const { pool } = (await (await fetch(`${url}/healthz`)).json()) as { pool: { working: number } };
      if (pool.working > 0) break;
    }
    expect(answered).toBe(false);
    service.kill('SIGTERM');
    const response = await answer;
    expect(response.status).toBe(200);
    expect((await response.arrayBuffer()).byteLength).toBeGreaterThan(20_000);
    expect(await ended).toBe(0);
  });

  it('ends with 3 where its port is taken', async () => {
    const { service, ended, url } = await start([built('cli.js'), 'serve', '--port', '0'], {});
    const { status, stderr } = run('serve', '--port', new URL(url).port);
    expect(status).toBe(3);
    expect(stderr).toContain('something else is listening there');
    service.kill('SIGTERM');
    expect(await ended).toBe(0);
  });

  it('answers bytes that are not HTTP with a problem', async () => {
    const { service, ended, url } = await start([built('cli.js'), 'serve', '--port', '0'], {});
    const text = await new Promise<string>((resolve) => {
      const socket = connect(Number(new URL(url).port), '127.0.0.1', () => socket.write('harp\r\n\r\n'));
      let all = '';
      socket.on('data', (data) => {
        all += String(data);
      });
      socket.on('close', () => resolve(all));
    });
    expect(text).toMatch(/^HTTP\/1\.1 400 Bad Request\r\n/);
    expect(text).toContain('urn:tringle:problem:bad-request');
    service.kill('SIGTERM');
    expect(await ended).toBe(0);
  });
});
