import { readlinkSync } from 'node:fs';
import { lstat, readdir, readFile, rm, stat, utimes, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { join } from 'node:path';
import * as z from 'zod';

/** What the names of folders that hold jobs begin with. */
export const FOLDER_PREFIX = 'tringle-jobs-';

/** Tells in a folder whose it is; it is touched while its process lives. */
const OWNER_FILE = 'owner.json';

/** A process, where its number means something: the same number elsewhere is another process. */
const ownerSchema = z.object({ pid: z.int().min(1), space: z.string() });

type Owner = z.infer<typeof ownerSchema>;

/** Linux numbers processes anew in each container: the link names the numbering (pid_namespaces(7)). */
const nameSpace = (): string => {
  try {
    return `${hostname()} ${readlinkSync('/proc/self/ns/pid')}`;
  } catch {
    return hostname();
  }
};

/** Says that a folder is this process's. */
export const signFolder = (folder: string): Promise<void> =>
  writeFile(
    join(folder, OWNER_FILE),
    JSON.stringify({ pid: process.pid, space: nameSpace() } satisfies Owner),
  );

/** Shows that the process still lives. */
export const touchFolder = (folder: string): Promise<void> => {
  const now = new Date();
  return utimes(join(folder, OWNER_FILE), now, now);
};

const readOwner = async (folder: string): Promise<Owner | null> => {
  try {
    const text = await readFile(join(folder, OWNER_FILE), 'utf8');
    return ownerSchema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
};

const isAlive = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // A process of another user lives, too, but may not be asked (EPERM).
    return !(error instanceof Error && 'code' in error && error.code === 'ESRCH');
  }
};

/** When a folder last showed a sign of life, in milliseconds since 1970. */
const lastSign = async (folder: string): Promise<number> => {
  const shown = await stat(join(folder, OWNER_FILE)).catch(() => stat(folder));
  return shown.mtimeMs;
};

/**
 * Whether nobody will come back to a folder: its process has ended, as far as that can be seen from here; else it has
 * shown no sign of life for as long as results are kept.
 */
const isAbandoned = async (folder: string, keepMs: number): Promise<boolean> => {
  const owner = await readOwner(folder);
  const sign = await lastSign(folder);
  if (owner?.space !== nameSpace()) return Date.now() - sign > keepMs;
  if (owner.pid !== process.pid) return !isAlive(owner.pid);
  // An earlier process had the number that is now this one's, as the first of a container always has.
  return sign < Date.now() - process.uptime() * 1000;
};

/** Whether it is a folder of this user, and no link to elsewhere. */
const isOwnFolder = async (path: string): Promise<boolean> => {
  const found = await lstat(path);
  return found.isDirectory() && found.uid === (process.getuid?.() ?? found.uid);
};

/**
 * Removes the folders of jobs that processes left behind when they died; what cannot be looked at or removed is left.
 *
 * @param keepMs how long results are promised to be kept
 */
export const clearAbandoned = async (parent: string, keepMs: number): Promise<void> => {
  const names = await readdir(parent);
  for (const name of names.filter((each) => each.startsWith(FOLDER_PREFIX))) {
    const folder = join(parent, name);
    try {
      if ((await isOwnFolder(folder)) && (await isAbandoned(folder, keepMs))) {
        await rm(folder, { recursive: true, force: true });
      }
    } catch {
      // Another process may have removed it first.
    }
  }
};
