import { extname } from 'node:path';
import { listTunes, type TuneSummary } from '../../engine/index.ts';
import { fileNameFrom } from '../http/file-name.ts';
import type { FilePair } from './arguments/arguments.ts';
import { readInput } from './arguments/choice.ts';
import { withoutExtension } from './output-files.ts';

/**
 * The files of a command with each tune book taken apart into its tunes, which are written beside each other under the
 * name of the book, a number that sorts, and their titles. What cannot be read stays one file, to be told as such.
 */
export const listTuneFiles = async (files: readonly FilePair[]): Promise<readonly FilePair[]> => {
  const listed = await Promise.all(files.map(listOne));
  return listed.flat();
};

const listOne = async (file: FilePair): Promise<readonly FilePair[]> => {
  const read = await readInput(file.input);
  const tunes = read.ok ? listTunes(read.value) : null;
  if (tunes === null || !tunes.ok || tunes.value === null || tunes.value.length < 2) return [file];
  const width = `${tunes.value.length}`.length;
  return tunes.value.map((tune, index) => ({
    input: file.input,
    output: nameTune(file.output, `${index + 1}`.padStart(width, '0'), tune),
    tune: tune.number,
  }));
};

const nameTune = (output: string, place: string, { title }: TuneSummary): string => {
  const name = fileNameFrom(title, '');
  return `${withoutExtension(output)}-${place}${name === '' ? '' : `-${name}`}${extname(output)}`;
};
