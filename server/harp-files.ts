import type { HarpScore } from '../render/index.ts';
import { extensionOf, SOURCE_TYPES } from '../render/pure.ts';
import { fileNameFrom } from './http/file-name.ts';
import { reportAnnotation } from './reports/report.ts';
import { namesIn } from './reports/report-notes.ts';
import { ALL_HARPS, type AnnotatedHarps } from './threads/tasks/annotate/annotate-harps.ts';
import type { SourceFile } from './threads/tasks/source-file.ts';

/** One of the files that are made of a score with several harps. */
export interface HarpFile {
  /** Without an ending. */
  readonly name: string;
  readonly ending: string;
  readonly content: Uint8Array | string;
}

/** A name for each harp that is fit for a file; harps of one name are counted. */
const nameHarps = (names: readonly string[]): readonly string[] => {
  const taken = new Set([ALL_HARPS]);
  return names.map((given) => {
    const name = fileNameFrom(given, 'harp');
    let own = name;
    for (let number = 2; taken.has(own.toLowerCase()); number += 1) own = `${name} ${number}`;
    taken.add(own.toLowerCase());
    return own;
  });
};

/** The drawings of one score: a file each. */
const pageFiles = (name: string, { pages }: Pick<HarpScore, 'pages'>): readonly HarpFile[] =>
  pages.map((content, index) => ({
    name: pages.length === 1 ? name : `${name}-${index + 1}`,
    ending: 'svg',
    content,
  }));

const drawnFiles = (
  name: string,
  drawn: Pick<HarpScore, 'pages' | 'pdf'>,
  form: 'pdf' | 'svg',
): readonly HarpFile[] => {
  if (form === 'svg') return pageFiles(name, drawn);
  if (drawn.pdf === null) throw new Error('a PDF was asked for, and the renderer made none');
  return [{ name, ending: 'pdf', content: drawn.pdf }];
};

const sourceFile = (name: string, source: SourceFile | null): readonly HarpFile[] =>
  source === null ? [] : [{ name, ending: extensionOf(SOURCE_TYPES[source.kind]), content: source.bytes }];

/**
 * The files of all harps of a score or of both players of a part: a part or a report for each, the score of them all, and
 * the user's own file with the markings; of these what was made.
 *
 * @param form what the parts are; `source` where they are wanted only in the user's own file
 */
export const listHarpFiles = (
  { harps, names: given, together, source }: AnnotatedHarps,
  form: 'pdf' | 'svg' | 'report' | 'source',
): readonly HarpFile[] => {
  const names = nameHarps(given);
  const parts = harps.flatMap(({ annotation, score, source: own }, index): readonly HarpFile[] => {
    const name = names[index]!;
    if (form === 'source') return sourceFile(name, own);
    if (form !== 'report') return drawnFiles(name, annotation, form);
    const report = reportAnnotation(annotation, namesIn(score));
    return [{ name, ending: 'json', content: `${JSON.stringify(report, null, 2)}\n` }];
  });
  const joined =
    together === null || form === 'report' || form === 'source'
      ? []
      : drawnFiles(together.name, together, form);
  return [...parts, ...joined, ...sourceFile(ALL_HARPS, source)];
};
