import type { Score } from '../../engine/index.ts';

/** Kinds of files that an annotated score comes back as: always that in which it came. */
export const SOURCE_TYPES = {
  musicxml: 'application/vnd.recordare.musicxml+xml',
  mxl: 'application/vnd.recordare.musicxml',
  mei: 'application/mei+xml',
} as const;

/** The kinds of score file that are read and written back. */
export type SourceKind = keyof typeof SOURCE_TYPES;

/** How the name of a file of a media type ends; `bin` for types that no file of ours has. */
export const extensionOf = (mediaType: string): string =>
  ENDINGS.find(([, type]) => type === mediaType)?.[0] ?? 'bin';

const ENDINGS: readonly (readonly [string, string])[] = [
  ...Object.entries(SOURCE_TYPES),
  ['pdf', 'application/pdf'],
  ['svg', 'image/svg+xml'],
  ['png', 'image/png'],
  ['json', 'application/json'],
  ['zip', 'application/zip'],
];

/** The kind of file in which a score came. */
export const sourceKindOf = ({ source }: Score): SourceKind => {
  if (source.format === 'mei') return 'mei';
  return source.archivePath === null ? 'musicxml' : 'mxl';
};
