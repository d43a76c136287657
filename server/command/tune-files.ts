import { listTunes } from '../../engine/index.ts';
import { nameTuneFiles } from '../tune-files.ts';
import type { FilePair } from './arguments/commands.ts';
import { readPair } from './packed-scores.ts';

/**
 * The files of a command with each tune book taken apart into its tunes. What cannot be read stays one file, to be told
 * as such.
 */
export const listTuneFiles = async (files: readonly FilePair[]): Promise<readonly FilePair[]> => {
  const listed = await Promise.all(files.map(listOne));
  return listed.flat();
};

const listOne = async (file: FilePair): Promise<readonly FilePair[]> => {
  const read = await readPair(file);
  const listed = read.ok ? listTunes(read.value.bytes) : null;
  if (listed === null || !listed.ok || listed.value === null || listed.value.length < 2) return [file];
  const tunes = listed.value;
  return nameTuneFiles(file.output, tunes).map((output, index) => ({
    ...file,
    output,
    tune: tunes[index]!,
  }));
};
