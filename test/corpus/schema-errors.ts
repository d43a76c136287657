import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { encodeText } from '../../engine/score/file/decode.ts';
import type { SourceText } from '../../engine/score/model.ts';

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
export const schemaErrors = ({ format, version, text, encoding }: SourceText): readonly string[] => {
  const folder = mkdtempSync(join(tmpdir(), 'tringle-'));
  try {
    const path = join(folder, 'score.xml');
    writeFileSync(path, encodeText(text, encoding));
    if (format === 'mei') execute('jing', [join(SCHEMAS, 'mei', version, 'mei-all.rng'), path]);
    else {
      const schema = join(SCHEMAS, 'musicxml/musicxml.xsd');
      execute('xmllint', ['--nonet', '--noout', '--huge', '--schema', schema, path]);
    }
    return [];
  } catch (error) {
    const { stdout = '', stderr = '' } = error as { stdout?: string; stderr?: string };
    return `${stdout}${stderr}`
      .split('\n')
      .filter((line) => line.includes('error'))
      .map((line) => line.replace(/^.*?:\d+(:\d+)?:/, ''));
  } finally {
    rmSync(folder, { recursive: true });
  }
};

const execute = (program: string, args: readonly string[]): string => {
  const env = { ...process.env, XML_CATALOG_FILES: join(SCHEMAS, 'musicxml/catalog.xml') };
  return execFileSync(program, args, { env, encoding: 'utf8', stdio: 'pipe' });
};
