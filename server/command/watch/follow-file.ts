import { createHash } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';
import type { ScoreFile } from '../../threads/job.ts';
import { type Read, readScoreFile } from '../arguments/choice.ts';
import type { CommandResult } from '../exit.ts';

/** What became of a file that is followed. */
export type FileNews =
  | { readonly kind: 'saved'; readonly file: ScoreFile }
  /** It is no longer there, or cannot be read; told once. */
  | { readonly kind: 'gone'; readonly ending: CommandResult };

/** What of a file tells that it was written: its own number is another one where a program writes a new file and renames it. */
const stateOf = async (path: string): Promise<string> => {
  try {
    const { mtimeMs, size, ino } = await stat(path);
    return `${mtimeMs} ${size} ${ino}`;
  } catch {
    return 'gone';
  }
};

const digestOf = (read: Read<ScoreFile>): string =>
  read.ok ? createHash('sha256').update(read.value.bytes).digest('base64') : 'unreadable';

/**
 * Tells what a file holds whenever it was saved, however a program saves: the file is looked at again and again, and
 * read once it has not changed between two looks. Saves that leave the same bytes are passed over, and of several in
 * quick succession the last is told.
 *
 * @param everyMs between two looks
 * @param signal ends it
 */
export const followFile = async (
  path: string,
  everyMs: number,
  signal: AbortSignal,
  tell: (news: FileNews) => Promise<void>,
): Promise<void> => {
  let [told, seen, settled] = ['', '', ''];
  while (!signal.aborted) {
    const state = await stateOf(path);
    if (state === seen && state !== settled) {
      settled = state;
      const read = await readScoreFile(path);
      const digest = digestOf(read);
      if (digest !== told) {
        told = digest;
        await tell(read.ok ? { kind: 'saved', file: read.value } : { kind: 'gone', ending: read.ending });
      }
    }
    seen = state;
    await pause(everyMs, undefined, { signal }).catch(() => {});
  }
};
