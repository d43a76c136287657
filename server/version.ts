import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The package file above a folder: this file runs from `server/` and, once built, from `dist/server/`. */
const packageFileAbove = (folder: string): string => {
  const file = join(folder, 'package.json');
  return existsSync(file) ? file : packageFileAbove(dirname(folder));
};

const readVersion = (): string => {
  const content: unknown = JSON.parse(readFileSync(packageFileAbove(import.meta.dirname), 'utf8'));
  if (typeof content === 'object' && content !== null && 'version' in content) return String(content.version);
  throw new Error('package.json states no version');
};

/** The version of this program, as its package states it. */
export const VERSION = readVersion();
