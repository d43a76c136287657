import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

/*
 * Runs a measurement as the program is shipped, bundled: `node test/bench/built.mjs pages 300 5`. What runs the sources
 * as they are names every function that is made, which costs JavaScript half as much again.
 */

const [name, ...rest] = process.argv.slice(2);
const here = fileURLToPath(new URL('.', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'tringle-bench-'));
try {
  symlinkSync(join(here, '../../node_modules'), join(folder, 'node_modules'));
  const outfile = join(folder, 'bench.mjs');
  await build({
    entryPoints: [join(here, `${name}.ts`)],
    bundle: true,
    platform: 'node',
    format: 'esm',
    packages: 'external',
    outfile,
  });
  const { status } = spawnSync(process.execPath, [outfile, ...rest], { stdio: 'inherit' });
  process.exitCode = status ?? 1;
} finally {
  rmSync(folder, { recursive: true });
}
