import { ok, type Result, type TuneSummary } from '../../../problem.ts';
import { readAbcFile } from './abc-file.ts';
import { readTuneBook } from './tune-book.ts';

/**
 * The tunes of an ABC file in its order, without reading their music.
 *
 * @returns null for a file that is not ABC; or the problem that keeps the file from being taken apart
 */
export const listTunes = (bytes: Uint8Array): Result<readonly TuneSummary[] | null> => {
  const abc = readAbcFile(bytes);
  if (!abc.ok) return abc;
  if (abc.value === null) return ok(null);
  const book = readTuneBook(abc.value.text);
  return book.ok ? ok(book.value.tunes.map(({ number, title }) => ({ number, title }))) : book;
};
