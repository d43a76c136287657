import type { Score } from '../../engine/score/model.ts';

/** Kinds of files that an annotated score comes back as: always that in which it came. */
export const SOURCE_TYPES = {
  musicxml: 'application/vnd.recordare.musicxml+xml',
  mxl: 'application/vnd.recordare.musicxml',
  mei: 'application/mei+xml',
} as const;

export type SourceKind = keyof typeof SOURCE_TYPES;

/** The kind of file in which a score came. */
export const kindOf = ({ source }: Score): SourceKind => {
  if (source.format === 'mei') return 'mei';
  return source.archivePath === null ? 'musicxml' : 'mxl';
};
