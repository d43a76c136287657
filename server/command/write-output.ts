import type { Failed } from './exit.ts';
import { type OutputFile, writeFiles } from './output-files.ts';
import { resultOfSystemError } from './system-error.ts';

/**
 * Writes what a command made.
 *
 * @param named what the user called the output
 * @returns how the command ends where that fails; null where all is written
 */
export const writeOutput = async (files: readonly OutputFile[], named: string): Promise<Failed | null> => {
  try {
    await writeFiles(files);
    return null;
  } catch (error) {
    return resultOfSystemError(`cannot write ${named}`, error);
  }
};
