import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

/** What brings in a browser, a real score, the built files or Redis. */
const NEEDS_MORE =
  /fake-service|dist\/server|running-service|real-pools|redis-server|page-service|corpus-files|harp-scores|playwright/;

const all = readdirSync(join(ROOT, 'test'), { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.test.ts'))
  .map((name) => `test/${name}`);

const quick = (): readonly string[] => {
  const config = readFileSync(join(ROOT, 'vitest.config.ts'), 'utf8');
  const listed = [...config.matchAll(/'(test\/[^']+)'/g)].map(([, path]) => path!.replace(/\*\*?\/?/g, ''));
  const left = listed
    .filter((path) => path !== 'test/.test.ts')
    .map((path) => path.replace(/\.test\.ts$/, ''));
  return all.filter(
    (name) => name !== 'test/quick-run.test.ts' && !left.some((path) => name.startsWith(path)),
  );
};

describe('the quick run', () => {
  it('has most of the tests', () => {
    expect(quick().length).toBeGreaterThan(all.length / 2);
  });

  it.each(quick())('needs for %s no more than the sources and Node', (name) => {
    expect(readFileSync(join(ROOT, name), 'utf8')).not.toMatch(NEEDS_MORE);
  });
});
