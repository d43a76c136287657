import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';

const folderAbove = (folder: string): string =>
  existsSync(join(folder, 'package.json')) ? folder : folderAbove(dirname(folder));

/** The folder of the package: the code runs from `server/` in it and, once built, from `dist/server/`. */
export const PACKAGE_FOLDER = folderAbove(import.meta.dirname);
