import { stat, writeFile } from 'node:fs/promises';
import { extname } from 'node:path';
import type { AnnotateForm, Annotation } from '../../render/annotation.ts';
import { reportAnnotation } from '../report.ts';

/** The kinds of file the command line writes. */
export type OutputKind = 'pdf' | 'svg' | 'json';

/** What the renderer is asked for; the report goes without pages, which have a file kind of their own. */
export const FORM_OF_OUTPUT: Readonly<Record<OutputKind, AnnotateForm>> = {
  pdf: 'pdf',
  svg: 'svg',
  json: 'svg',
};

export interface OutputFile {
  readonly path: string;
  readonly content: Uint8Array | string;
}

const withoutExtension = (path: string): string => path.slice(0, path.length - extname(path).length);

/** The kind of a path, by its ending; null for another ending. */
export const outputKind = (path: string): OutputKind | null => {
  const ending = extname(path).slice(1).toLowerCase();
  return ending === 'pdf' || ending === 'svg' || ending === 'json' ? ending : null;
};

/** Where the PDF goes if nothing is said: beside the input, under its name. */
export const pathBeside = (input: string): string => `${withoutExtension(input)}.pdf`;

const listPages = (pages: readonly string[], path: string): readonly OutputFile[] =>
  pages.length === 1
    ? [{ path, content: pages[0]! }]
    : pages.map((content, index) => ({
        path: `${withoutExtension(path)}-${index + 1}${extname(path)}`,
        content,
      }));

/** The files to write for an annotated score. */
export const listOutputFiles = (
  annotation: Annotation,
  kind: OutputKind,
  path: string,
): readonly OutputFile[] => {
  switch (kind) {
    case 'pdf':
      if (annotation.pdf === null) throw new Error('a PDF was asked for, and the renderer made none');
      return [{ path, content: annotation.pdf }];
    case 'svg':
      return listPages(annotation.pages, path);
    case 'json':
      return [{ path, content: `${JSON.stringify(reportAnnotation(annotation), null, 2)}\n` }];
  }
};

/** Whether two paths lead to one file, by whatever names and links. */
const isSameFile = async (path: string, other: string): Promise<boolean> => {
  const [a, b] = await Promise.all(
    [path, other].map((file) => stat(file, { bigint: true }).catch(() => null)),
  );
  return a != null && b != null && a.dev === b.dev && a.ino === b.ino;
};

/** The first of the paths that is the input itself; null if none is. */
export const findOverwrite = async (paths: readonly string[], input: string): Promise<string | null> => {
  for (const path of paths) if (await isSameFile(path, input)) return path;
  return null;
};

export const writeFiles = async (files: readonly OutputFile[]): Promise<void> => {
  for (const { path, content } of files) await writeFile(path, content);
};
