import { extname, join } from 'node:path';
import { isZip, unpackEntry } from '../../engine/index.ts';
import { openArchive } from '../jobs/open-archive.ts';
import { safePath } from '../jobs/result-names.ts';
import type { ScoreFile } from '../threads/job.ts';
import { type Read, readInput, readScoreFile } from './arguments/choice.ts';
import type { FilePair } from './arguments/commands.ts';
import { resultOfProblem } from './exit.ts';
import { MOST_SCORES } from './open-books.ts';
import { withoutExtension } from './output-files.ts';

/** The files of a command, and what archives hold that is no score. */
export interface UnpackedFiles {
  readonly files: readonly FilePair[];
  /** Each with the name of its archive. */
  readonly passedOver: readonly string[];
}

/**
 * The files of a command with each archive taken apart into its scores, whose outputs go into a folder of its name.
 * What cannot be opened stays one file, to be told as such.
 */
export const listPackedScores = async (files: readonly FilePair[]): Promise<UnpackedFiles> => {
  const listed = await Promise.all(files.map(listOne));
  return {
    files: listed.flatMap((each) => each.files),
    passedOver: listed.flatMap((each) => each.passedOver),
  };
};

const listOne = async (file: FilePair): Promise<UnpackedFiles> => {
  const alone = { files: [file], passedOver: [] };
  const read = await readInput(file.input);
  if (!read.ok || !isZip(read.value)) return alone;
  const opened = openArchive(read.value, file.input, MOST_SCORES);
  if (!opened.ok) return alone;
  const packed = opened.value.scores.flatMap((score) => (score.kind === 'entry' ? [score] : []));
  if (packed.length === 0) return alone;
  const folder = withoutExtension(file.output);
  return {
    files: packed.map(({ name, bytes, entry }) => ({
      input: `${file.input}: ${name}`,
      output: join(folder, `${safePath(name)}${extname(file.output)}`),
      packed: { fileName: name, unpack: () => unpackEntry(bytes, entry) },
    })),
    passedOver: opened.value.passedOver.map((path) => `${file.input}: ${path}`),
  };
};

/** The score of a file, be it of its own or of an archive. */
export const readPair = async ({ input, packed }: FilePair): Promise<Read<ScoreFile>> => {
  if (packed === undefined) return readScoreFile(input);
  const bytes = packed.unpack();
  return bytes.ok
    ? { ok: true, value: { bytes: bytes.value, fileName: packed.fileName } }
    : { ok: false, ending: resultOfProblem(input, bytes.problem) };
};
