import { extensionOf } from '../../render/pure.ts';
import { fileNameFrom } from '../http/file-name.ts';
import type { JobFile } from './job.ts';

/** What failed is listed under this name in an archive of results. */
export const PROBLEMS_NAME = 'problems.json';

/** Folders of a hostile archive may lie deeper: the innermost are kept. */
const MOST_FOLDERS = 20;

/** What stands before is lost, as folders are that lie farther out. */
const LONGEST_PATH = 2_000;

/**
 * A path that stays within the folder it is unpacked in, whatever the archive called the score: names that lead upwards,
 * drives and roots fall away.
 */
export const safePath = (name: string): string => {
  const parts = name.slice(-LONGEST_PATH).split(/[/\\]/);
  const last = parts.pop()!.replace(/\.[^.]*$/, '');
  const folders = parts.map((part) => fileNameFrom(part, '')).filter((part) => part !== '');
  return [...folders.slice(-MOST_FOLDERS), fileNameFrom(last, 'score')].join('/');
};

/** Folders that tell small and capital letters apart are not to be found everywhere. */
const fold = (path: string): string => path.toLowerCase();

/** Gives names out, each once. Of those that are asked for again the next number is kept, so that many take no longer each. */
const openNames = (): ((name: string, ending: string) => string) => {
  const taken = new Set([PROBLEMS_NAME]);
  const numbers = new Map<string, number>();
  return (name, ending) => {
    const base = safePath(name);
    const first = `${base}.${ending}`;
    let path = first;
    let number = numbers.get(fold(first)) ?? 2;
    for (; taken.has(fold(path)); number += 1) path = `${base}-${number}.${ending}`;
    numbers.set(fold(first), number);
    taken.add(fold(path));
    return path;
  };
};

/**
 * Where the result of each file of a job stands in the archive of its results: in the folder of its score, under the
 * score's name, with the ending of what it became; a folder where it became several files. Scores are done in their order, so that a name once given stays.
 *
 * @returns null for a file without a result, and for that of a job of one score, whose result is no archive
 */
export const nameResults = (files: readonly JobFile[]): readonly (string | null)[] => {
  if (hasSingleScore(files)) return files.map(() => null);
  const giveName = openNames();
  return files.map(({ name, headers }) => {
    if (headers === null) return null;
    const path = giveName(name, extensionOf(headers['Content-Type'] ?? ''));
    return holdsSeveral(headers) ? `${path.replace(/\.zip$/, '')}/` : path;
  });
};

/** Whether a result is an archive of several files: they stand in a folder of the archive of all results. */
export const holdsSeveral = (headers: JobFile['headers']): boolean =>
  headers?.['Content-Type'] === 'application/zip';

/** Whether a job is of one score, what was passed over apart. */
export const hasSingleScore = (files: readonly JobFile[]): boolean =>
  files.filter(({ state }) => state !== 'skipped').length === 1;
