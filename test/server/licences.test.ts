import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const read = (path: string): string => readFileSync(`${root}${path}`, 'utf8');

interface Component {
  readonly name: string;
  readonly group?: string;
  readonly version: string;
  readonly purl: string;
  readonly licenses?: readonly unknown[];
}

const isOfPackage = (file: string): boolean => pathToFileURL(file).href.includes('/node_modules/');

describe('the notices', () => {
  it('are those of what is installed: after a change of packages run npm run notices', async () => {
    const { writeNotices } = (await import(`${root}server/licences/notices.mjs`)) as {
      writeNotices: () => string;
    };
    expect(read('THIRD-PARTY-NOTICES.txt') === writeNotices()).toBe(true);
  });

  it('name every package that the program depends on, and tell how Verovio is replaced', () => {
    const notices = read('THIRD-PARTY-NOTICES.txt');
    const { dependencies } = JSON.parse(read('package.json')) as { dependencies: Record<string, string> };
    for (const [name, version] of [...Object.entries(dependencies), ['preact', '']]) {
      expect(notices).toContain(`\n${name} ${version}`);
    }
    expect(notices).toMatch(/To use\s+another version of it, put that in its place/);
    expect(notices).toContain('GNU LESSER GENERAL PUBLIC LICENSE');
  });

  it('say of Verovio what is true: it is loaded from its own folder, and not bundled', () => {
    expect(isOfPackage(createRequire(import.meta.url).resolve('verovio/wasm'))).toBe(true);
    expect(read('dist/render/layout/drawer/verovio.js')).toMatch(/import\('verovio\/wasm'\)/);
    const bundles = readdirSync('dist/server').filter((name) => name.endsWith('.js'));
    const loading = bundles.filter((name) => read(`dist/server/${name}`).includes('import("verovio/wasm")'));
    expect(loading).toHaveLength(1);
  });

  it('travel with the package, the image and the page', () => {
    const { files } = JSON.parse(read('package.json')) as { files: readonly string[] };
    expect(files).toContain('THIRD-PARTY-NOTICES.txt');
    expect(read('Dockerfile')).toMatch(/^COPY --from=build .*\/app\/THIRD-PARTY-NOTICES\.txt/m);
    expect(read('Dockerfile')).toMatch(/^COPY LICENSE/m);
    expect(read('.dockerignore')).toContain('!THIRD-PARTY-NOTICES.txt');
    expect(read('dist/server/page/assets/third-party-notices.txt')).toBe(read('THIRD-PARTY-NOTICES.txt'));
    const [main] = readdirSync('dist/server/page/assets').filter((name) => /^main-\w+\.js$/.test(name));
    expect(read(`dist/server/page/assets/${main}`)).toContain('Licences: /third-party-notices.txt');
    expect(read('dist/server/cli.js')).toContain('what is bundled: THIRD-PARTY-NOTICES.txt');
  });
});

describe('the bill of materials', () => {
  const bill = JSON.parse(read('dist/sbom.cdx.json')) as {
    bomFormat: string;
    specVersion: string;
    metadata: { component: { name: string } };
    components: readonly Component[];
  };
  const names = bill.components.map(({ group, name }) => (group === undefined ? name : `${group}/${name}`));

  it('is CycloneDX, and of this program', () => {
    expect(bill).toMatchObject({ bomFormat: 'CycloneDX', metadata: { component: { name: 'tringle' } } });
    expect(Number(bill.specVersion)).toBeGreaterThanOrEqual(1.5);
  });

  it('holds what is shipped with version and licence, what is bundled too, and no tools', () => {
    const { dependencies } = JSON.parse(read('package.json')) as { dependencies: Record<string, string> };
    expect(names).toEqual(expect.arrayContaining([...Object.keys(dependencies), 'preact']));
    for (const tool of ['vitest', 'typescript', '@biomejs/biome', 'esbuild'])
      expect(names).not.toContain(tool);
    for (const { purl, licenses } of bill.components) {
      expect(purl).toMatch(/^pkg:npm\//);
      expect(licenses?.length, purl).toBeGreaterThan(0);
    }
  });
});
