import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { engineAlone } from './engine-alone.ts';

const ROOT = fileURLToPath(new URL('..', import.meta.url));
const DEMO = join(ROOT, 'server/demo/lanterns-at-the-lock.musicxml');
/** The setting that the demo begins with, and its first change. */
const BEGINNING = 'D♮ C♮ B♭ | E♭ F♮ G♮ A♭, then B♮ in bar 7';

const PROGRAM = `
import { formatChange, formatSetting, openScore, planPedals, problemMessage } from 'tringle/engine';
export const planBytes = (bytes) => {
  const opened = openScore(bytes);
  if (!opened.ok) throw new Error(problemMessage(opened.problem));
  const { initial, moves } = planPedals(opened.value);
  const [first] = moves;
  return formatSetting(initial) + ', then ' + formatChange(first.letter, first.to) + ' in bar ' + (first.bar + 1);
};
`;

const run = (command: string, words: readonly string[], cwd: string): string =>
  execFileSync(command, words, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });

describe('the package, packed and installed in an empty folder', { timeout: 300_000 }, () => {
  let folder = '';

  beforeAll(() => {
    if (!existsSync(join(ROOT, 'dist/engine/index.js'))) throw new Error('run npm run build first');
    const place = mkdtempSync(join(tmpdir(), 'tringle-package-'));
    run('npm', ['pack', '--ignore-scripts', '--silent', '--pack-destination', place], ROOT);
    const [packed] = readdirSync(place);
    folder = join(place, 'empty');
    mkdirSync(folder);
    writeFileSync(join(folder, 'package.json'), '{ "private": true, "type": "module" }');
    writeFileSync(join(folder, 'program.js'), PROGRAM);
    const quietly = ['--ignore-scripts', '--no-audit', '--no-fund', '--prefer-offline', '--silent'];
    run('npm', ['install', join(place, packed!), ...quietly], folder);
  }, 300_000);

  afterAll(() => rmSync(join(folder, '..'), { recursive: true, force: true }));

  it('plans a score in Node', () => {
    writeFileSync(
      join(folder, 'in-node.js'),
      `import { readFileSync } from 'node:fs';
import { planBytes } from './program.js';
process.stdout.write(planBytes(readFileSync(process.argv[2])));`,
    );
    expect(run(process.execPath, ['in-node.js', DEMO], folder)).toBe(BEGINNING);
  });

  it('plans a score bundled for the browser, where there is no Node', async () => {
    const { outputFiles } = await build({
      stdin: { contents: PROGRAM, resolveDir: folder },
      bundle: true,
      write: false,
      platform: 'browser',
      format: 'iife',
      globalName: 'tringle',
    });
    expect(engineAlone(outputFiles[0]!.text, DEMO)).toBe(BEGINNING);
  });

  it('brings declarations that a program in TypeScript compiles against', () => {
    writeFileSync(
      join(folder, 'typed.ts'),
      `import { DEFAULT_PLAN_OPTIONS, keepAsPlanned, type Move, openScore, type Plan, planPedals } from 'tringle/engine';
const opened = openScore(new Uint8Array());
const plan: Plan | null = opened.ok ? planPedals(opened.value) : null;
export const first: Move | undefined = plan?.moves[0];
const quarters = (num: number) => ({ num, den: 1 });
const pins = plan === null ? [] : keepAsPlanned(plan, { from: quarters(144), until: quarters(148) }, quarters(0));
export const passage: Plan | null = opened.ok ? planPedals(opened.value, { ...DEFAULT_PLAN_OPTIONS, pins }) : null;
// @ts-expect-error a move has no colour
export const colour = first?.colour;
`,
    );
    const strictly = ['--strict', '--noEmit', '--target', 'es2023', '--module', 'nodenext'];
    run(process.execPath, [join(ROOT, 'node_modules/typescript/bin/tsc'), ...strictly, 'typed.ts'], folder);
  });
});
