import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fail } from '../service-problem.ts';
import type { BlobStore } from './job.ts';

/** A store that goes away with the process. */
export interface FolderStore extends BlobStore {
  readonly close: () => Promise<void>;
}

/** The system's words for a full disk, a quota and a limit on the size of files (errno). */
const FULL: readonly string[] = ['ENOSPC', 'EDQUOT', 'EFBIG'];

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : '';

/**
 * Keeps bytes in a folder of its own.
 *
 * @param parent where the folder is made; keys are made by the service and are plain names
 */
export const openFolderStore = async (parent: string): Promise<FolderStore> => {
  const folder = await mkdtemp(join(parent, 'tringle-jobs-'));
  const remove = (key: string): Promise<void> => rm(join(folder, key), { force: true });
  return {
    put: async (key, bytes) => {
      try {
        await writeFile(join(folder, key), bytes);
        return { ok: true, value: null };
      } catch (error) {
        await remove(key);
        if (FULL.includes(codeOf(error))) return fail({ code: 'storage-full' });
        throw error;
      }
    },
    get: async (key) => {
      try {
        return await readFile(join(folder, key));
      } catch (error) {
        if (codeOf(error) === 'ENOENT') return null;
        throw error;
      }
    },
    remove: async (keys) => {
      await Promise.all(keys.map(remove));
    },
    close: () => rm(folder, { recursive: true, force: true }),
  };
};
