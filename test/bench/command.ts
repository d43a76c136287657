import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/**
 * What the command costs as a whole process, beside Node alone and a process in which bare Verovio draws the same score.
 *
 * `npm run build && npx tsx test/bench/command.ts`: processor time (all threads) and wall time, medians of rounds in which
 * each is run in turn, so that a busy machine disturbs all alike.
 */

const ROUNDS = 7;

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const SCORE = at('../../server/demo/lanterns-at-the-lock.musicxml');
const COMMAND = at('../../dist/server/cli.js');

/** Tells at the end of a process what it used, on a pipe of its own. */
const TELLING = `data:text/javascript,${encodeURIComponent(
  "import { writeSync } from 'node:fs'; process.on('exit', () => writeSync(3, JSON.stringify(process.cpuUsage())));",
)}`;

const BARE = `
import { readFileSync, writeFileSync } from 'node:fs';
import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
const module = await createVerovioModule();
enableLog(LOG_OFF, module);
const toolkit = new VerovioToolkit(module);
toolkit.setOptions({ scale: 100, xmlIdChecksum: true, mmOutput: true, unit: 8.75 });
toolkit.loadData(readFileSync(process.env.SCORE, 'utf8'));
for (let page = 1; page <= toolkit.getPageCount(); page += 1)
  writeFileSync(process.env.FOLDER + '/bare-' + page + '.svg', toolkit.renderToSVG(page));
`;

const folder = mkdtempSync(join(tmpdir(), 'tringle-bench-'));

const CASES: readonly (readonly [string, readonly string[]])[] = [
  ['Node alone', ['--eval', '0']],
  ['bare Verovio to SVG', ['--input-type=module', '--eval', BARE]],
  ['--version', [COMMAND, '--version']],
  ['plan', [COMMAND, 'plan', SCORE]],
  ['annotate to MusicXML', [COMMAND, 'annotate', SCORE, '-o', join(folder, 'part.musicxml')]],
  ['annotate to SVG', [COMMAND, 'annotate', SCORE, '-o', join(folder, 'part.svg')]],
  ['annotate to PDF', [COMMAND, 'annotate', SCORE, '-o', join(folder, 'part.pdf')]],
];

interface Used {
  readonly processor: number;
  readonly wall: number;
}

const use = (words: readonly string[]): Used => {
  const start = performance.now();
  const { output, status } = spawnSync(process.execPath, ['--import', TELLING, ...words], {
    cwd: at('../..'),
    env: { PATH: process.env.PATH, SCORE, FOLDER: folder },
    stdio: ['ignore', 'ignore', 'inherit', 'pipe'],
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${words.at(-1)} ended with ${status}`);
  const { user, system } = JSON.parse(output[3]!) as NodeJS.CpuUsage;
  return { processor: (user + system) / 1000, wall: performance.now() - start };
};

const median = (times: readonly number[]): string =>
  `${[...times]
    .sort((a, b) => a - b)
    [times.length >> 1]!.toFixed(0)
    .padStart(5)} ms`;

const used = new Map<string, Used[]>(CASES.map(([name]) => [name, []]));
for (let round = 0; round < ROUNDS; round += 1)
  for (const [name, words] of CASES) used.get(name)!.push(use(words));
rmSync(folder, { recursive: true, force: true });

console.info('as whole processes, the demo of 60 bars: processor time, wall time');
for (const [name, times] of used)
  console.info(
    `${median(times.map(({ processor }) => processor))} ${median(times.map(({ wall }) => wall))}  ${name}`,
  );
