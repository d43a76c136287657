import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PACKAGE_FOLDER } from './package-folder.ts';

const readVersion = (): string => {
  const content: unknown = JSON.parse(readFileSync(join(PACKAGE_FOLDER, 'package.json'), 'utf8'));
  if (typeof content === 'object' && content !== null && 'version' in content) return String(content.version);
  throw new Error('package.json states no version');
};

/** The version of this program, as its package states it. */
export const VERSION = readVersion();
