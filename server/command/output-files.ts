import { mkdir, stat, writeFile } from 'node:fs/promises';
import { dirname, extname } from 'node:path';
import type { SourceKind } from '../../render/pure.ts';
import { reportAnnotation } from '../reports/report.ts';
import { namesIn } from '../reports/report-notes.ts';
import type { Annotated, Target } from '../threads/tasks/annotate/annotated.ts';

/** The kinds of file the command line writes; the last three are the user's own file with markings in it. */
export const OUTPUT_KINDS = ['pdf', 'svg', 'png', 'json', 'musicxml', 'mxl', 'mei'] as const;

export type OutputKind = (typeof OUTPUT_KINDS)[number];

export const isSource = (kind: OutputKind): kind is SourceKind =>
  kind === 'musicxml' || kind === 'mxl' || kind === 'mei';

/** What is made for a kind of file. */
export const targetOf = (kind: OutputKind): Target => {
  if (isSource(kind)) return { kind: 'source', kinds: [kind] };
  return { kind: kind === 'pdf' ? 'pdf' : 'svg' };
};

export interface OutputFile {
  readonly path: string;
  readonly content: Uint8Array | string;
}

export const withoutExtension = (path: string): string => path.slice(0, path.length - extname(path).length);

/** The kind of a path, by its ending; null for another ending. */
export const outputKind = (path: string): OutputKind | null => {
  const ending = extname(path).slice(1).toLowerCase();
  if (ending === 'xml') return 'musicxml';
  return OUTPUT_KINDS.find((kind) => kind === ending) ?? null;
};

/** Where the PDF goes if nothing is said: beside the input, under its name. */
export const pathBeside = (input: string): string => `${withoutExtension(input)}.pdf`;

/** Drawings, a file each, numbered where there are several. */
export const listPages = (pages: readonly string[], path: string): readonly OutputFile[] =>
  pages.length === 1
    ? [{ path, content: pages[0]! }]
    : pages.map((content, index) => ({
        path: `${withoutExtension(path)}-${index + 1}${extname(path)}`,
        content,
      }));

/** The files to write for an annotated score. */
export const listOutputFiles = (
  { annotation, score, source }: Annotated,
  kind: OutputKind,
  path: string,
): readonly OutputFile[] => {
  if (isSource(kind)) {
    if (source === null) throw new Error('the annotated file was asked for, and was not made');
    return [{ path, content: source.bytes }];
  }
  switch (kind) {
    case 'pdf':
      if (annotation.pdf === null) throw new Error('a PDF was asked for, and the renderer made none');
      return [{ path, content: annotation.pdf }];
    case 'svg':
    case 'png':
      return listPages(annotation.pages, path);
    case 'json':
      return [
        { path, content: `${JSON.stringify(reportAnnotation(annotation, namesIn(score)), null, 2)}\n` },
      ];
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

export const makeFolder = async (path: string): Promise<void> => {
  await mkdir(path, { recursive: true });
};

/** Writes files, each into its folder, which is made where it is missing; drawings that go into a PNG are painted. */
export const writeFiles = async (files: readonly OutputFile[]): Promise<void> => {
  for (const { path, content } of files) {
    await makeFolder(dirname(path));
    const isPainted = typeof content === 'string' && outputKind(path) === 'png';
    await writeFile(path, isPainted ? await paint(content) : content);
  }
};

/** The renderer is loaded for what is painted alone: this file is read by every command. */
const paint = async (svg: string): Promise<Uint8Array> => {
  const { paintPng } = await import('../../render/index.ts');
  return paintPng(svg);
};
