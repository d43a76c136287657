// Bundles the page into dist/server/page/assets, which serve-page.ts serves.
import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { drawFirstPicture } from './first-picture.mjs';
import { makeSignsFont } from './signs-font.mjs';

const at = (path) => fileURLToPath(new URL(path, import.meta.url));
const folder = at('../../dist/server/page/assets');

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const signsFont = {
  name: 'signs-font',
  setup: (bundling) => {
    bundling.onResolve({ filter: /^music-signs\.otf$/ }, ({ path }) => ({ path, namespace: 'signs-font' }));
    bundling.onLoad({ filter: /.*/, namespace: 'signs-font' }, () => ({
      contents: makeSignsFont(),
      loader: 'file',
    }));
  },
};
// Page and threads are bundled each by itself: a chunk that both share would bring the whole engine to the first view.
// What is bundled is named by its content, so that a browser can keep it for good (see serve-page.ts).
const bundle = async (entryPoints, define = {}) => {
  const { metafile } = await build({
    entryPoints,
    outdir: folder,
    bundle: true,
    splitting: true,
    format: 'esm',
    target: ['es2022'],
    jsx: 'automatic',
    jsxImportSource: 'preact',
    minify: true,
    define,
    metafile: true,
    // The notices of what is bundled stand in one file beside the bundles.
    legalComments: 'none',
    banner: Object.fromEntries(
      ['js', 'css'].map((kind) => [kind, '/*! Licences: /third-party-notices.txt */']),
    ),
    loader: { '.ttf': 'file' },
    plugins: [signsFont],
    entryNames: '[name]-[hash]',
    chunkNames: 'chunk-[hash]',
    assetNames: '[name]-[hash]',
    logLevel: 'warning',
    tsconfigRaw: {},
  });
  const made = Object.entries(metafile.outputs).filter(([, { entryPoint }]) => entryPoint !== undefined);
  return (source) => basename(made.find(([, { entryPoint }]) => resolve(entryPoint) === at(source))[0]);
};
const thread = await bundle({
  'engine-worker': at('client/planner/engine-worker.ts'),
  'settings-worker': at('client/settings/settings-worker.ts'),
  'compare-worker': at('client/compare/compare-worker.ts'),
});
const page = await bundle(
  { main: at('client/main.tsx'), style: at('styles/style.css') },
  {
    ENGINE_WORKER: JSON.stringify(thread('client/planner/engine-worker.ts')),
    SETTINGS_WORKER: JSON.stringify(thread('client/settings/settings-worker.ts')),
    COMPARE_WORKER: JSON.stringify(thread('client/compare/compare-worker.ts')),
  },
);
await drawFirstPicture(folder);
const html = readFileSync(at('index.html'), 'utf8')
  .replace('"style.css"', `"${page('styles/style.css')}"`)
  .replace('"main.js"', `"${page('client/main.tsx')}"`);
writeFileSync(`${folder}/index.html`, html);
cpSync(at('icon.svg'), `${folder}/icon.svg`);
cpSync(at('manifest.webmanifest'), `${folder}/manifest.webmanifest`);
cpSync(at('../../THIRD-PARTY-NOTICES.txt'), `${folder}/third-party-notices.txt`);
cpSync(at('../demo/lanterns-at-the-lock.musicxml'), `${folder}/demo.musicxml`);
cpSync(at('../demo/the-ribbon-stall.musicxml'), `${folder}/demo-levers.musicxml`);
// What the browser keeps for when the service cannot be reached: all but the notices, which are read there.
const kept = readdirSync(folder).filter((name) => !['index.html', 'third-party-notices.txt'].includes(name));
const version = createHash('sha256');
for (const name of ['index.html', ...kept]) version.update(name).update(readFileSync(`${folder}/${name}`));
await build({
  entryPoints: [at('offline/service-worker.ts')],
  outfile: `${folder}/service-worker.js`,
  bundle: true,
  format: 'esm',
  target: ['es2022'],
  minify: true,
  define: {
    PAGE_FILES: JSON.stringify(kept),
    PAGE_VERSION: JSON.stringify(version.digest('hex').slice(0, 16)),
  },
  banner: { js: '/*! Licences: /third-party-notices.txt */' },
  logLevel: 'warning',
  tsconfigRaw: {},
});
