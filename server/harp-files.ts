import type { HarpScore } from '../render/index.ts';
import { extensionOf, SOURCE_TYPES } from '../render/pure.ts';
import { fileNameFrom } from './http/file-name.ts';
import { reportAnnotation } from './reports/report.ts';
import { noteNamer } from './reports/report-notes.ts';
import type { AnnotatedHarp, AnnotatedHarps } from './threads/tasks/annotate-harps.ts';

/** One of the files that are made of a score with several harps. */
export interface HarpFile {
  /** Without an ending. */
  readonly name: string;
  readonly ending: string;
  readonly content: Uint8Array | string;
}

/** How the score of all harps is called, and the file with all markings. */
const TOGETHER = 'all harps';

/** A name for each harp that is fit for a file; harps of one name are counted. */
const nameHarps = (harps: readonly AnnotatedHarp[]): readonly string[] => {
  const taken = new Set([TOGETHER]);
  return harps.map(({ score }) => {
    const name = fileNameFrom(score.harp.name, 'harp');
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

/**
 * The files of all harps of a score: a part or a report for each, the score of them all, and the user's own file with
 * all markings; of these what was made.
 *
 * @param form what the parts are; `source` where they are wanted only in the file with all markings
 */
export const listHarpFiles = (
  { harps, together, source }: AnnotatedHarps,
  form: 'pdf' | 'svg' | 'report' | 'source',
): readonly HarpFile[] => {
  const names = nameHarps(harps);
  const parts = harps.flatMap(({ annotation, score }, index): readonly HarpFile[] => {
    const name = names[index]!;
    if (form === 'source') return [];
    if (form !== 'report') return drawnFiles(name, annotation, form);
    const report = reportAnnotation(annotation, noteNamer(score));
    return [{ name, ending: 'json', content: `${JSON.stringify(report, null, 2)}\n` }];
  });
  const joined =
    together === null || form === 'report' || form === 'source' ? [] : drawnFiles(TOGETHER, together, form);
  const file =
    source === null
      ? []
      : [{ name: TOGETHER, ending: extensionOf(SOURCE_TYPES[source.kind]), content: source.bytes }];
  return [...parts, ...joined, ...file];
};
