import { fail, ok, type Result } from '../../problem.ts';
import { parseXml } from '../../xml/parse-xml.ts';
import { descendantsNamed } from '../../xml/tree.ts';
import { decodeText } from './decode.ts';
import {
  ARCHIVE_LIMITS,
  type ArchiveEntry,
  type ArchiveLimits,
  isZip,
  listEntries,
  unpackEntry,
} from './unzip.ts';

/** The bytes of a score file, and its path if it was in an archive. */
export interface ScoreFile {
  readonly bytes: Uint8Array;
  readonly archivePath: string | null;
}

const CONTAINER_PATH = 'META-INF/container.xml';

/**
 * Takes the score file out of a compressed MusicXML file; any other bytes are handed on as they are.
 *
 * The first root file of the container that is MusicXML counts (MusicXML 4.0, container.xsd: no media type means
 * MusicXML). Old archives without a container must hold a single score.
 *
 * @returns the file, or `archive-corrupt`, `archive-without-score`, `limit-exceeded` or `unsupported`
 */
export const unpackScore = (bytes: Uint8Array, limits: ArchiveLimits = ARCHIVE_LIMITS): Result<ScoreFile> => {
  if (!isZip(bytes)) return ok({ bytes, archivePath: null });
  const listed = listEntries(bytes, limits);
  if (!listed.ok) return listed;
  const files = listed.value.filter((entry) => !entry.path.endsWith('/'));
  const container = files.find((entry) => entry.path === CONTAINER_PATH);
  const path = container === undefined ? ok(onlyScore(files)) : findRootFile(bytes, container, files, limits);
  if (!path.ok) return path;
  const entry = path.value;
  if (entry === null) return fail({ code: 'archive-without-score', entries: files.map((file) => file.path) });
  const unpacked = unpackEntry(bytes, entry, limits);
  return unpacked.ok ? ok({ bytes: unpacked.value, archivePath: entry.path }) : unpacked;
};

const onlyScore = (files: readonly ArchiveEntry[]): ArchiveEntry | null => {
  const scores = files.filter(
    (file) => /\.(?:musicxml|xml)$/iu.test(file.path) && !/^(?:META-INF|__MACOSX)\//u.test(file.path),
  );
  return scores.length === 1 ? scores[0]! : null;
};

const findRootFile = (
  bytes: Uint8Array,
  container: ArchiveEntry,
  files: readonly ArchiveEntry[],
  limits: ArchiveLimits,
): Result<ArchiveEntry | null> => {
  const unpacked = unpackEntry(bytes, container, limits);
  if (!unpacked.ok) return unpacked;
  const decoded = decodeText(unpacked.value);
  const root = decoded.ok ? parseXml(decoded.value.text) : decoded;
  if (!root.ok) return fail({ code: 'archive-corrupt', message: `${CONTAINER_PATH} is not readable XML` });
  const rootFile = descendantsNamed(root.value, 'rootfile').find((file) =>
    isMusicXmlType(file.attributes['media-type']),
  );
  const path = rootFile?.attributes['full-path'];
  if (path === undefined) return ok(null);
  const named = files.find((file) => samePath(file.path, path));
  return named === undefined
    ? fail({
        code: 'archive-corrupt',
        message: `its ${CONTAINER_PATH} names ${path}, which is not in the archive`,
      })
    : ok(named);
};

const isMusicXmlType = (mediaType: string | undefined): boolean =>
  mediaType === undefined || /musicxml|^(?:application|text)\/xml$/iu.test(mediaType);

const samePath = (entry: string, path: string): boolean => {
  const plain = path.replaceAll('\\', '/').replace(/^(?:\.?\/)+/u, '');
  return entry === path || entry === plain;
};
