import { listHarpFiles } from '../harp-files.ts';
import type { AnnotatedHarps } from '../threads/tasks/annotate/annotate-harps.ts';
import { isSource, type OutputFile, type OutputKind } from './output-files.ts';

/** The files to write for all harps of a score, or for both players of a part. @param base what their names begin with */
export const listSeveral = (
  annotated: AnnotatedHarps,
  kind: OutputKind,
  base: string,
): readonly OutputFile[] => {
  return listHarpFiles(annotated, formOf(kind)).map(({ name, ending, content }) => ({
    path: `${base}-${name}.${kind === 'png' && ending === 'svg' ? 'png' : ending}`,
    content,
  }));
};

const formOf = (kind: OutputKind): Parameters<typeof listHarpFiles>[1] => {
  if (isSource(kind)) return 'source';
  if (kind === 'json') return 'report';
  return kind === 'pdf' ? 'pdf' : 'svg';
};
