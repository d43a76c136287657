import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { group } from 'd3-array';
import { encodeText } from '../../engine/score/file/decode.ts';
import type { SourceText } from '../../engine/score/model/source.ts';

const SCHEMAS = fileURLToPath(new URL('../../../shared/schema/', import.meta.url));

const runs = (program: string, ...args: readonly string[]): boolean => {
  try {
    execFileSync(program, args, { stdio: 'ignore' });
    return true;
  } catch (error) {
    return (error as { code?: string }).code !== 'ENOENT';
  }
};

/** Whether the schemas and their validators are at hand. */
export const canValidate = existsSync(SCHEMAS) && runs('xmllint', '--version') && runs('jing');

/** What the validator has against a document, without places: nothing for a valid one. */
export const schemaErrors = (source: SourceText): readonly string[] => schemaErrorsOfEach([source])[0]!;

/** The same for several documents: to start a validator and read its schema takes longer than they do. */
export const schemaErrorsOfEach = (sources: readonly SourceText[]): readonly (readonly string[])[] => {
  const errors = new Map<SourceText, readonly string[]>();
  for (const [schema, alike] of group(sources, schemaOf))
    for (const [i, told] of errorsByOneSchema(schema, alike).entries()) errors.set(alike[i]!, told);
  return sources.map((source) => errors.get(source)!);
};

const errorsByOneSchema = (
  schema: string,
  sources: readonly SourceText[],
): readonly (readonly string[])[] => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-'));
  try {
    const paths = sources.map(({ text, encoding }, i) => {
      const path = join(folder, `${i}.xml`);
      writeFileSync(path, encodeText(text, encoding));
      return path;
    });
    const told = complaints(validatorOf(schema), paths);
    return paths.map((path) =>
      told
        .filter((line) => line.startsWith(`${path}:`))
        .map((line) => line.replace(/^.*?:\d+(:\d+)?:/, ''))
        .filter((line) => line.includes('error')),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
};

const schemaOf = ({ format, version }: SourceText): string =>
  format === 'mei' ? join(SCHEMAS, 'mei', version, 'mei-all.rng') : join(SCHEMAS, 'musicxml/musicxml.xsd');

const validatorOf = (schema: string): readonly [string, ...string[]] =>
  schema.endsWith('.rng')
    ? ['jing', schema]
    : ['xmllint', '--nonet', '--noout', '--huge', '--schema', schema];

const complaints = (
  [program, ...flags]: readonly [string, ...string[]],
  paths: readonly string[],
): readonly string[] => {
  const env = {
    ...process.env,
    XML_CATALOG_FILES: join(SCHEMAS, 'musicxml/catalog.xml'),
    // It runs for a second or less, in which a better compiler does not pay.
    JAVA_TOOL_OPTIONS: '-XX:TieredStopAtLevel=1 -XX:+UseSerialGC',
  };
  const { status, stdout, stderr, error } = spawnSync(program, [...flags, ...paths], {
    env,
    encoding: 'utf8',
  });
  if (error !== undefined) throw error;
  if (status === 0) return [];
  const lines = `${stdout}${stderr}`.split('\n');
  // Whatever else went wrong is no complaint about a document, and must not pass for none.
  if (!lines.some((line) => paths.some((path) => line.startsWith(`${path}:`))))
    throw new Error(`${program} ended with ${status}: ${lines.slice(-5).join(' ')}`);
  return lines;
};
