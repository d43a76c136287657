// Bundles the page into dist/server/page/assets, which serve-page.ts serves.
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));
const folder = at('../../dist/server/page/assets');

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
await build({
  entryPoints: {
    main: at('client/main.tsx'),
    'engine-worker': at('client/planner/engine-worker.ts'),
    style: at('style.css'),
  },
  outdir: folder,
  bundle: true,
  splitting: true,
  format: 'esm',
  target: ['es2022'],
  jsx: 'automatic',
  jsxImportSource: 'preact',
  minify: true,
  legalComments: 'none',
  loader: { '.ttf': 'file' },
  assetNames: '[name]',
  logLevel: 'warning',
  tsconfigRaw: {},
});
cpSync(at('index.html'), `${folder}/index.html`);
cpSync(at('../demo/lanterns-at-the-lock.musicxml'), `${folder}/demo.musicxml`);
cpSync(at('../demo/the-ribbon-stall.musicxml'), `${folder}/demo-levers.musicxml`);
