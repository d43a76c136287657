import { extensionOf, SOURCE_TYPES } from '../../../../render/pure.ts';
import { STRINGS } from '../../strings/strings.ts';
import type { Answer, FetchedFile } from '../service/annotate-request.ts';
import type { NameDownload } from './naming.ts';
import { saveFile } from './save-file.ts';

export const PDF = 'application/pdf';

export const ZIP = 'application/zip';

/** What to accept for the user's own file. */
export const ANY_SOURCE = Object.values(SOURCE_TYPES).join(', ');

/** Saves what the service made. @returns what went wrong, as a sentence; null where nothing did */
export const saveAnswer = (answer: Answer<FetchedFile>, name: NameDownload): string | null => {
  if (!answer.ok) return answer.sentence;
  const { blob, mediaType } = answer.value;
  saveFile(blob, name(extensionOf(mediaType)));
  return null;
};

/** Saves pages, each an SVG document, in one archive. */
export const savePages = async (pages: readonly string[], name: NameDownload): Promise<void> => {
  const { strToU8, zipSync } = await import('fflate');
  const files = Object.fromEntries(
    pages.map((svg, i) => [STRINGS.take.svgName(i + 1), strToU8(svg)] as const),
  );
  const zipped = zipSync(files) as Uint8Array<ArrayBuffer>;
  saveFile(new Blob([zipped], { type: ZIP }), name('zip'));
};

/** Pages that look the same wherever they are opened. @param letters the element that brings them */
export const withLetters = (pages: readonly string[], letters: string): readonly string[] =>
  pages.map((svg) => {
    const end = svg.lastIndexOf('</svg>');
    return `${svg.slice(0, end)}${letters}\n${svg.slice(end)}`;
  });

/** The same, where they had to be asked for. @returns what went wrong, as a sentence; null where nothing did */
export const saveFetchedPages = async (
  answer: Answer<readonly string[]>,
  name: NameDownload,
): Promise<string | null> => {
  if (!answer.ok) return answer.sentence;
  await savePages(answer.value, name);
  return null;
};

/** Saves a table of comma-separated values. */
export const saveTable = (table: string, name: NameDownload): void =>
  // The mark at the start tells spreadsheets that the text is UTF-8.
  saveFile(new Blob(['\uFEFF', table], { type: 'text/csv;charset=utf-8' }), name('csv'));
