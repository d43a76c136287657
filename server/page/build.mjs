// Bundles the page into dist/server/page/assets, which serve-page.ts serves.
import { cpSync, mkdirSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));
const folder = at('../../dist/server/page/assets');

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
// Page and thread are bundled each by itself: a chunk that both share would bring the whole engine to the first view.
const bundle = (entryPoints) =>
  build({
    entryPoints,
    outdir: folder,
    bundle: true,
    splitting: true,
    format: 'esm',
    target: ['es2022'],
    jsx: 'automatic',
    jsxImportSource: 'preact',
    minify: true,
    // The notices of what is bundled stand in one file beside the bundles.
    legalComments: 'none',
    banner: Object.fromEntries(['js', 'css'].map((kind) => [kind, '/*! Licences: /third-party-notices.txt */'])),
    loader: { '.ttf': 'file' },
    assetNames: '[name]',
    logLevel: 'warning',
    tsconfigRaw: {},
  });
await bundle({ main: at('client/main.tsx'), style: at('style.css') });
await bundle({ 'engine-worker': at('client/planner/engine-worker.ts') });
cpSync(at('../../THIRD-PARTY-NOTICES.txt'), `${folder}/third-party-notices.txt`);
cpSync(at('index.html'), `${folder}/index.html`);
cpSync(at('../demo/lanterns-at-the-lock.musicxml'), `${folder}/demo.musicxml`);
cpSync(at('../demo/the-ribbon-stall.musicxml'), `${folder}/demo-levers.musicxml`);
