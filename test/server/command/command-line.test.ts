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
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { buildHarp, note } from '../../engine/score/musicxml/musicxml-builder.ts';
import { type Ran, runHere } from './run-here.ts';

// The program as users run it: `npm test` builds it first.
const built = (path: string): string =>
  fileURLToPath(new URL(`../../../dist/server/${path}`, import.meta.url));
const DEMO = fileURLToPath(new URL('../../../server/demo/lanterns-at-the-lock.musicxml', import.meta.url));

/** Two bars with one move: enough where the claim is about the command, and drawn in half the time of the demo. */
const TWO_BARS = buildHarp(note('C4', 4), note('C#4', 4));

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'tringle-test-'));
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

/** In this process: what the command says and writes. */
const run = (...words: string[]): Promise<Ran> => runHere(folder, words);

/** As a process of its own: that it starts, ends by itself, and with which code. */
const runProgram = (...words: string[]) => {
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
const bringPart = (name: string): void => write(name, TWO_BARS);

const lines = (text: string): string[] => text.split('\n').filter((line) => line !== '');

describe('tringle annotate', () => {
  it('writes a PDF beside its input and sums up in a last line', async () => {
    bringPart('part.musicxml');
    const { status, stdout, stderr } = runProgram('annotate', 'part.musicxml');
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(read('part.pdf').subarray(0, 5).toString()).toBe('%PDF-');
    expect(lines(stdout).at(-1)).toMatch(
      /^\d+ bars, \d+ moves?, (easy|moderate|hard|very hard), \d+ findings?.*, \d+ pages?: part\.pdf$/,
    );
    expect(read('part.musicxml').toString()).toBe(TWO_BARS);
  });

  it('writes a drawing a page', async () => {
    bringDemo('part.musicxml');
    const { status, stdout } = await run('annotate', 'part.musicxml', '-o', 'drawn.svg');
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

  it('writes a report', async () => {
    bringPart('part.musicxml');
    expect((await run('annotate', 'part.musicxml', '-o', 'report.json', '--part', 'P1')).status).toBe(0);
    const report = JSON.parse(read('report.json').toString('utf8'));
    expect(report.part.ids).toEqual(['P1']);
    expect(report.moves.length).toBeGreaterThan(0);
  });

  it('makes the folders that its output goes to, and none where there is no output', async () => {
    bringPart('part.xml');
    expect((await run('annotate', 'part.xml', '-o', 'out/of/new.musicxml')).status).toBe(0);
    expect(read('out/of/new.musicxml').toString()).toContain('<score-partwise');
    write('bad.xml', '<html/>');
    expect((await run('annotate', 'bad.xml', '-o', 'more/new.musicxml')).status).toBe(1);
    expect(readdirSync(folder).sort()).toEqual(['bad.xml', 'out', 'part.xml']);
  });

  it.each([
    ['an empty file', '', 'The file is empty'],
    ['a web page', '<html/>', 'not a MusicXML, MEI or ABC score'],
    ['broken XML', '<score-partwise><part', 'line 1, column'],
  ])('refuses %s in one line, ends with 1, and writes nothing', async (_what, content, reason) => {
    write('bad.xml', content);
    const { status, stdout, stderr } = await run('annotate', 'bad.xml');
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
    expect(lines(stderr).length).toBe(1);
    expect(stderr).toMatch(/^tringle: bad\.xml: /);
    expect(stderr).toContain(reason);
    expect(readdirSync(folder)).toEqual(['bad.xml']);
  });

  it('never writes over its input, under whatever name', async () => {
    bringPart('part.pdf');
    linkSync(join(folder, 'part.pdf'), join(folder, 'other.pdf'));
    for (const words of [['part.pdf'], ['part.pdf', '-o', './part.pdf'], ['part.pdf', '-o', 'other.pdf']]) {
      const { status, stderr } = await run('annotate', ...words);
      expect(status).toBe(2);
      expect(stderr).toContain('never overwrites');
    }
    expect(read('part.pdf').toString()).toBe(TWO_BARS);
  });

  it.each([
    ['missing.xml', 'no such file', []],
    ['.', 'it is a folder', ['-o', 'x.pdf']],
    ['part.xml', 'a file stands where a folder should be', ['-o', 'part.xml/x.pdf']],
  ])('ends with 3 where %s or its output cannot be used: %s', async (input, reason, more) => {
    bringPart('part.xml');
    const { status, stderr } = await run('annotate', input, ...more);
    expect(status).toBe(3);
    expect(lines(stderr).length).toBe(1);
    expect(stderr).toContain(reason);
  });
});

describe('tringle annotate, into the file itself', () => {
  it.each(['musicxml', 'mxl'])(
    'writes the user’s own file as .%s, which proofreads clean',
    async (ending) => {
      bringPart('part.musicxml');
      expect((await run('annotate', 'part.musicxml', '-o', `marked.${ending}`)).status).toBe(0);
      const proof = await run('proof', `marked.${ending}`);
      expect({ status: proof.status, stderr: proof.stderr }).toEqual({ status: 0, stderr: '' });
      expect(proof.stdout).toMatch(/\d+ markings, .*: the markings are right\n$/);
    },
  );

  it('makes no MEI of MusicXML', async () => {
    bringPart('part.musicxml');
    const { status, stderr } = await run('annotate', 'part.musicxml', '-o', 'marked.mei');
    expect(status).toBe(2);
    expect(stderr).toContain('-o marked.musicxml or -o marked.mxl');
  });
});

describe('tringle annotate, of many files', () => {
  it('writes each into the folder, tells how each went, and ends with 1 if one was refused', async () => {
    bringPart('one.musicxml');
    write('two.xml', '<score-partwise');
    const { status, stdout, stderr } = await run(
      'annotate',
      'one.musicxml',
      'two.xml',
      '--out-dir',
      'o/p',
      '--to',
      'json',
    );
    expect(status).toBe(1);
    expect(readdirSync(join(folder, 'o/p'))).toEqual(['one.json']);
    const told = lines(stdout);
    expect(told[0]).toBe('1/2 one.musicxml: o/p/one.json');
    expect(told[1]).toMatch(/^2\/2 two\.xml: .*line 1/);
    expect(told[2]).toMatch(/^file +bars +changes +findings +pages +time$/);
    expect(told[4]).toMatch(/^two\.xml +failed/);
    expect(stderr).toBe('tringle: 1 of 2 files was not annotated\n');
  });
});

describe('tringle plan', () => {
  it('prints the setting, the changes, and a last line that sums up', async () => {
    bringPart('part.musicxml');
    const { status, stdout } = await run('plan', 'part.musicxml');
    expect(status).toBe(0);
    expect(lines(stdout)[0]).toMatch(/^D. C. B. \| E. F. G. A.$/);
    expect(lines(stdout).at(-1)).toBe(
      '2 bars, 1 move (at least 1 with these spellings), playable by hands and feet; easy',
    );
  });

  it('takes options and pins from a file, and prints what a program can read', async () => {
    bringPart('part.musicxml');
    const pins = [{ kind: 'position', pedal: 'D', position: 'sharp', from: '0', until: '1' }];
    write('options.json', JSON.stringify({ spelling: 'free', pins }));
    const { status, stdout } = await run('plan', 'part.musicxml', '--options', 'options.json', '--json');
    expect(status).toBe(0);
    expect(JSON.parse(stdout).setting).toMatch(/^D♯/);
  });

  it('takes the work from a file, and tells of work that the score holds', async () => {
    bringPart('part.musicxml');
    write('work.json', JSON.stringify({ fullSettings: [{ barIndex: 1, beat: '1', print: true }] }));
    const annotated = await run(
      'annotate',
      'part.musicxml',
      '-o',
      'done.musicxml',
      '--decisions',
      'work.json',
    );
    expect(annotated.status).toBe(0);
    expect(read('done.musicxml').toString()).toContain('<?tringle-decisions ');
    const again = await run('annotate', 'done.musicxml', '-o', 'again.musicxml');
    expect(again.stdout).toContain('The plan follows the decisions saved in the file');
    expect(read('again.musicxml')).toEqual(read('done.musicxml'));
    write('work.json', '{}');
    await run('annotate', 'done.musicxml', '-o', 'without.musicxml', '--decisions', 'work.json');
    expect(read('without.musicxml').toString()).not.toContain('tringle-decisions');
  });

  it.each([
    ['{"pin":[]}', '“pin”'],
    ['{"pins":[{}]}', 'pins.0'],
    ['[]', 'not a JSON object'],
  ])('ends with 2 for the work %s', async (content, reason) => {
    bringPart('part.musicxml');
    write('work.json', content);
    const { status, stderr } = await run('plan', 'part.musicxml', '--decisions', 'work.json');
    expect(status).toBe(2);
    expect(stderr).toContain(reason);
  });

  it.each([
    ['{"pins":1}', 'pins'],
    ['{"spel":1}', 'spelling'],
    ['[', 'not a JSON object'],
  ])('ends with 2 for the options %s', async (content, reason) => {
    bringPart('part.musicxml');
    write('options.json', content);
    const { status, stderr } = await run('plan', 'part.musicxml', '--options', 'options.json');
    expect(status).toBe(2);
    expect(stderr).toContain(reason);
  });
});

describe('tringle proof', () => {
  it('ends with 4 where markings need fixing, and tells of every file', async () => {
    bringPart('one.musicxml');
    bringPart('two.musicxml');
    const { status, stdout, stderr } = await run('proof', 'one.musicxml', 'two.musicxml', '--json');
    expect(status).toBe(4);
    const reports = JSON.parse(stdout) as { file: string; correct: boolean; findings: { code: string }[] }[];
    expect(reports.map(({ file, correct }) => [file, correct])).toEqual([
      ['one.musicxml', false],
      ['two.musicxml', false],
    ]);
    expect(reports[0]?.findings[0]?.code).toBe('no-markings');
    expect(stderr).toBe('tringle: 2 of 2 files have no pedal markings\n');
  });

  it('does not blame the markings where the music asks for C and C♯ at once', async () => {
    write(
      'part.musicxml',
      buildHarp(note('D4', 4), note('C4', 4) + note('C#5', 4, { chord: true }), note('F#4', 4)),
    );
    await run('annotate', 'part.musicxml', '-o', 'marked.musicxml');
    const { status, stdout } = await run('proof', 'marked.musicxml');
    expect(status).toBe(4);
    expect(stdout).toContain('No marking can help');
    expect(stdout).toMatch(/: no change of a marking was found that helps\n$/);
  });
});

describe('tringle setting', () => {
  it('tells the sounds of a setting and the shortest way to another', async () => {
    const { status, stdout } = await run('setting', 'D C B E F G A', '--to', 'Db C# Bb Eb F# G A');
    expect(status).toBe(0);
    const told = lines({ stdout }.stdout);
    expect(told.slice(0, 2)).toEqual([
      'D♮ C♮ B♮ | E♮ F♮ G♮ A♮',
      'all strings together: C major, D dorian, E phrygian, F lydian, G mixolydian, A minor, B locrian',
    ]);
    expect(told).toContain(
      'to D♭ C♯ B♭ | E♭ F♯ G♮ A♮: 5 moves, 0.5 s from the first to the last; no way is shorter',
    );
  });

  it.each([
    [['D C B'], /“D C B” is not a valid value for the option setting: it must be seven note names/],
    [['D C B E F G A', '--sound', 'C wobbly'], /option sound: it must be a chord.*the closest known/],
    [['D C B E F G A', '--spelling', 'free'], /--spelling belongs to a score: name its bar with --bar/],
    [[], /setting needs seven note names/],
  ])('refuses %j', async (words, sentence) => {
    const { status, stderr } = await run('setting', ...words);
    expect(status).toBe(2);
    expect(stderr).toMatch(sentence);
  });
});

describe('tringle glissandi', () => {
  it('finds settings, the nearest to the one before first', async () => {
    const { status, stdout } = await run('glissandi', 'C whole tone', '--from', 'D C B | E F G A');
    expect(status).toBe(0);
    expect(lines(stdout).slice(0, 2)).toEqual([
      'C whole tone: C D E F♯ G♯ A♯',
      'Settings that give exactly this sound: 5',
    ]);
    const moves = lines(stdout)
      .slice(3)
      .map((line) => Number(/ {2}(\d) {2}/.exec(line)?.[1]));
    expect(moves).toEqual([...moves].sort());
  });

  it('says of a near setting what is missing and what is foreign', async () => {
    const [, answer, heads, first] = lines((await run('glissandi', 'C E G')).stdout);
    expect(answer).toBe('No setting gives exactly this sound. The closest are:');
    expect(heads).toMatch(/missing +foreign$/);
    expect(first).toMatch(/[♭♮♯]$/);
  });

  it.each([
    [['C wholesome tone'], 'chord, a scale or a list of notes'],
    [['C wholesome tone'], '“C whole tone”'],
    [['Eb9', '--from', 'D C B'], 'seven note names'],
  ])('ends with 2 for %j', async (words, reason) => {
    const { status, stderr } = await run('glissandi', ...words);
    expect(status).toBe(2);
    expect(stderr).toContain(reason);
  });
});

describe('tringle', () => {
  it('tells its version and its help', async () => {
    expect(runProgram('--version').stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
    const help = await run('--help');
    expect(help.status).toBe(0);
    for (const word of [
      'annotate',
      'proof',
      'glissandi',
      'serve',
      '--part',
      '--port',
      '.svg',
      '70 a bug',
      'REDIS_URL',
    ]) {
      expect(help.stdout).toContain(word);
    }
  });

  it('ends with 2 on a word it does not know', async () => {
    const { status, stderr } = runProgram('anotate', 'x.xml');
    expect(status).toBe(2);
    expect(stderr).toBe('tringle: there is no command “anotate”. Did you mean “annotate”?\n');
  });
});

describe('tringle serve', () => {
  let service: ChildProcess;
  let ended: Promise<number | null>;
  let url = '';

  beforeAll(async () => {
    // More time to stop than by default, which a busy machine may need for two bars alone.
    const env = { PATH: process.env.PATH, THREADS: '1', STOP_SECONDS: '60' };
    service = spawn(process.execPath, [built('cli.js'), 'serve', '--port', '0'], { env });
    ended = new Promise((resolve) => service.once('exit', resolve));
    const line = await new Promise<string>((resolve, reject) => {
      service.stdout!.once('data', (data) => resolve(String(data)));
      service.once('exit', () => reject(new Error('the service ended')));
    });
    url = /http:\S+/.exec(line)?.[0] ?? '';
  });
  afterAll(() => {
    service.kill('SIGKILL');
  });

  it('answers bytes that are not HTTP with a problem', async () => {
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
  });

  it('ends with 3 where its port is taken', () => {
    const { status, stderr } = runProgram('serve', '--port', new URL(url).port);
    expect(status).toBe(3);
    expect(stderr).toContain('another program is using it');
  });

  it('runs until it is told to stop, and lets a score under way end before it does', async () => {
    expect((await fetch(`${url}/healthz`)).status).toBe(200);
    const answer = fetch(`${url}/v1/annotate`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/octet-stream' },
      // Short: threads that draw give way to all else that the machine does, ten to one.
      body: TWO_BARS,
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
    expect((await response.arrayBuffer()).byteLength).toBeGreaterThan(10_000);
    expect(await ended).toBe(0);
    await expect(fetch(`${url}/healthz`)).rejects.toThrow();
  });
});

/** The built files that are read before a program begins, itself among them. */
const readAtStart = (file: string, read = new Set<string>()): Set<string> => {
  if (read.has(file)) return read;
  read.add(file);
  const imports = readFileSync(built(file), 'utf8').matchAll(/\b(?:from|import)\s*"\.\/([\w-]+\.js)"/g);
  for (const [, other] of imports) readAtStart(other!, read);
  return read;
};

describe('a program that draws nothing', () => {
  /** The fonts are read with this; it stands for the whole renderer. */
  const hasRenderer = (file: string): boolean =>
    [...readAtStart(file)].some((each) => readFileSync(built(each), 'utf8').includes('Unsupported OpenType'));

  it('does not read the renderer', () => {
    expect(hasRenderer('drawing-worker.js')).toBe(true);
    const planning = readdirSync(built('.')).filter((name) => /^plan-file-.*\.js$/.test(name));
    expect(planning.length).toBe(1);
    expect(['cli.js', 'main.js', ...planning].filter(hasRenderer)).toEqual([]);
  });
});
