import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fail } from '../service-problem.ts';
import { clearAbandoned, FOLDER_PREFIX, signFolder, touchFolder } from './abandoned-folders.ts';
import type { BlobStore } from './job.ts';

/** A store that goes away with the process. */
export interface FolderStore extends BlobStore {
  readonly close: () => Promise<void>;
}

/** The system's words for a full disk, a quota and a limit on the size of files (errno). */
const FULL: readonly string[] = ['ENOSPC', 'EDQUOT', 'EFBIG'];

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : '';

/** How often a process shows that it lives, and looks for what others have left. */
const ROUND_MS = 30_000;

/**
 * Keeps bytes in a folder of its own, and removes folders that were left by processes that died.
 *
 * @param parent where the folder is made; keys are made by the service and are plain names
 * @param keepMs how long results are promised to be kept
 */
export const openFolderStore = async (parent: string, keepMs: number): Promise<FolderStore> => {
  await clearAbandoned(parent, keepMs);
  const folder = await mkdtemp(join(parent, `${FOLDER_PREFIX}${process.pid}-`));
  await signFolder(folder);
  const rounds = setInterval(() => {
    touchFolder(folder)
      .then(() => clearAbandoned(parent, keepMs))
      // A disk that is full or away for a while: the next round comes.
      .catch(() => {});
  }, ROUND_MS).unref();
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
    close: async () => {
      clearInterval(rounds);
      await rm(folder, { recursive: true, force: true });
    },
  };
};
