// Bundles the command, the service and its threads into dist/server: Node opens a dozen files then, not four hundred,
// each time that the command is run or a thread starts.
import { chmodSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));

/** Packages of plain code that every run needs; the others are loaded from their own folders when they are wanted. */
const BUNDLED = ['d3-array', 'fflate', 'opentype.js', 'saxes', 'tonal', 'zod'];

const { dependencies } = JSON.parse(readFileSync(at('../package.json'), 'utf8'));
const folder = at('../dist/server');

await build({
  // All in one folder: threads are found beside the file that starts them.
  entryPoints: ['cli', 'main', 'threads/drawing-worker', 'threads/compute-worker', 'threads/long-worker'].map(
    (name) => at(`${name}.ts`),
  ),
  entryNames: '[name]',
  outdir: folder,
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  // Modules where a package has them, so that only what is used of it is taken.
  mainFields: ['module', 'main'],
  external: Object.keys(dependencies)
    .filter((name) => !BUNDLED.includes(name))
    .flatMap((name) => [name, `${name}/*`]),
  sourcemap: true,
  sourcesContent: false,
  minifySyntax: true,
  minifyWhitespace: true,
  legalComments: 'none',
  banner: { js: '/*! Licences of what is bundled: THIRD-PARTY-NOTICES.txt */' },
  logLevel: 'warning',
  tsconfigRaw: {},
});
chmodSync(`${folder}/cli.js`, 0o755);
