import { extname } from 'node:path';
import type { TuneSummary } from '../engine/index.ts';
import { fileNameFrom } from './http/file-name.ts';

/**
 * Paths for the tunes of a book, in its order: beside each other under the name of the book, with a number that sorts
 * and the title. Titles may be hostile.
 */
export const nameTuneFiles = (book: string, tunes: readonly TuneSummary[]): readonly string[] => {
  const ending = extname(book);
  const base = ending === '' ? book : book.slice(0, -ending.length);
  const width = `${tunes.length}`.length;
  return tunes.map(({ title }, index) => {
    const name = fileNameFrom(title, '');
    const place = `${index + 1}`.padStart(width, '0');
    return `${base}-${place}${name === '' ? '' : `-${name}`}${ending}`;
  });
};

/** A tune of a book, for people. */
export const nameTune = ({ number, title }: TuneSummary): string =>
  `tune ${number}${title === '' ? '' : ` “${title}”`}`;
