import { type ArchiveEntry, isZip, listEntries } from '../../engine/index.ts';
import { fail, type Outcome } from '../service-problem.ts';

/** One score of a job: the bytes of the file itself, or its packed stretch of an archive. */
export type JobScore =
  | { readonly kind: 'file'; readonly name: string; readonly bytes: Uint8Array }
  | {
      readonly kind: 'entry';
      readonly name: string;
      readonly bytes: Uint8Array;
      readonly entry: ArchiveEntry;
    };

const SCORE_NAME = /\.(?:musicxml|mxl|mei|xml|abc)$/iu;

/** Whether a name promises a score. */
export const isScoreName = (name: string): boolean => SCORE_NAME.test(name);

/**
 * Whether a file may be a tune book, as far as its first bytes tell: an archive and a document of XML are none.
 */
export const mayBeTuneBook = (bytes: Uint8Array): boolean => {
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 64)).replace(/^(?:ï»¿)?\s*/u, '');
  return start !== '' && !start.startsWith('<') && !start.startsWith('PK');
};

/** What was sent as one job. */
export interface OpenedArchive {
  readonly scores: readonly JobScore[];
  /** Paths of the files that are no scores by their names. */
  readonly passedOver: readonly string[];
}

/** What systems put into archives on their own, and folders; `.` and `..` in a path hide nothing. */
const NOT_SENT = /(?:^|\/)(?:__MACOSX\/|\.(?!\.?\/))|\/$/u;

/** A compressed MusicXML file is an archive too, but one score: its table of contents tells. */
const isCompressedScore = (entries: readonly ArchiveEntry[]): boolean =>
  entries.some((entry) => entry.path === 'META-INF/container.xml');

/** The longest local header: 30 bytes, a name and extra fields of 64 KB each (ZIP APPNOTE, 4.3.7; from memory). */
const LONGEST_HEADER = 30 + 2 * 0xffff;

/** The stretch of the archive that holds an entry, as if it were all. */
const cutEntry = (archive: Uint8Array, entry: ArchiveEntry): JobScore => ({
  kind: 'entry',
  name: entry.path,
  bytes: archive.subarray(entry.headerOffset, entry.headerOffset + LONGEST_HEADER + entry.packedBytes),
  entry: { ...entry, headerOffset: 0 },
});

/**
 * The scores that were sent as one job. Nothing is unpacked here; an archive with a single score, or a compressed
 * MusicXML file, counts as one file.
 *
 * @returns the scores and what was passed over, or `archive-corrupt`, `archive-without-score`, `limit-exceeded` or `too-many-scores`
 */
export const openArchive = (
  bytes: Uint8Array,
  fileName: string,
  mostScores: number,
): Outcome<OpenedArchive> => {
  const whole: JobScore = { kind: 'file', name: fileName, bytes };
  const alone = { ok: true, value: { scores: [whole], passedOver: [] } } as const;
  if (!isZip(bytes)) return alone;
  const listed = listEntries(bytes);
  if (!listed.ok) return listed;
  if (isCompressedScore(listed.value)) return alone;
  const sent = listed.value.filter(({ path }) => !NOT_SENT.test(path));
  const scores = sent.filter(({ path }) => isScoreName(path));
  if (scores.length === 0) {
    return fail({
      code: 'archive-without-score',
      entries: listed.value.slice(0, 20).map(({ path }) => path),
    });
  }
  if (scores.length > mostScores) {
    return fail({ code: 'too-many-scores', limit: mostScores, found: scores.length });
  }
  const passedOver = sent.filter(({ path }) => !isScoreName(path)).map(({ path }) => path);
  return { ok: true, value: { scores: scores.map((entry) => cutEntry(bytes, entry)), passedOver } };
};
