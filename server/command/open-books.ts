import { unpackEntry } from '../../engine/index.ts';
import { openArchive } from '../jobs/open-archive.ts';
import type { Outcome } from '../service-problem.ts';
import type { ScoreFile } from '../threads/job.ts';

/** As many scores of an archive as a job takes. */
export const MOST_SCORES = 10_000;

/** A score file by the name that it is told by. */
export interface NamedFile {
  readonly name: string;
  readonly file: Outcome<ScoreFile>;
}

/** The score files of an input: itself, or what an archive holds. */
export const openBooks = (bytes: Uint8Array, name: string): readonly NamedFile[] => {
  const opened = openArchive(bytes, name, MOST_SCORES);
  if (!opened.ok) return [{ name, file: opened }];
  return opened.value.scores.map((score): NamedFile => {
    if (score.kind === 'file')
      return { name, file: { ok: true, value: { bytes: score.bytes, fileName: name } } };
    const unpacked = unpackEntry(score.bytes, score.entry);
    const file = unpacked.ok
      ? { ok: true as const, value: { bytes: unpacked.value, fileName: score.name } }
      : unpacked;
    return { name: `${name}: ${score.name}`, file };
  });
};
