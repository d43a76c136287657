import { extensionOf } from '../../render/pure.ts';
import { fileNameFrom } from '../http/file-name.ts';
import type { JobFile } from './job.ts';

/** What failed is listed under this name in an archive of results. */
export const PROBLEMS_NAME = 'problems.json';

/** Folders of a hostile archive may lie deeper: the innermost are kept. */
const MOST_FOLDERS = 20;

/**
 * A path that stays within the folder it is unpacked in, whatever the archive called the score: names that lead upwards,
 * drives and roots fall away.
 */
const safePath = (name: string, ending: string): readonly string[] => {
  const parts = name.split(/[/\\]/);
  const last = parts.pop()!.replace(/\.[^.]*$/, '');
  const folders = parts.map((part) => fileNameFrom(part, '')).filter((part) => part !== '');
  return [...folders.slice(-MOST_FOLDERS), `${fileNameFrom(last, 'score')}${ending}`];
};

/** Folders that tell small and capital letters apart are not to be found everywhere. */
const fold = (path: string): string => path.toLowerCase();

const resultName = (name: string, ending: string, taken: ReadonlySet<string>): string => {
  const pathWith = (tail: string): string => safePath(name, `${tail}.${ending}`).join('/');
  let path = pathWith('');
  for (let number = 2; taken.has(fold(path)); number += 1) path = pathWith(`-${number}`);
  return path;
};

/**
 * Where the result of each file of a job stands in the archive of its results: in the folder of its score, under the
 * score's name, with the ending of what it became. Scores are done in their order, so that a name once given stays.
 *
 * @returns null for a file without a result, and for that of a job of one score, whose result is no archive
 */
export const nameResults = (files: readonly JobFile[]): readonly (string | null)[] => {
  if (hasSingleScore(files)) return files.map(() => null);
  const taken = new Set([PROBLEMS_NAME]);
  return files.map(({ name, headers }) => {
    if (headers === null) return null;
    const path = resultName(name, extensionOf(headers['Content-Type'] ?? ''), taken);
    taken.add(fold(path));
    return path;
  });
};

/** Whether a job is of one score, what was passed over apart. */
export const hasSingleScore = (files: readonly JobFile[]): boolean =>
  files.filter(({ state }) => state !== 'skipped').length === 1;
