import { fail, ok, type Result } from '../problem.ts';
import { readAbcFile } from './abc/book/abc-file.ts';
import { convertTune, type TuneFormat } from './abc/convert-tune.ts';
import type { Score } from './model/score.ts';
import { MAX_SCORE_BYTES, type OpenOptions, openScore } from './open.ts';

/** How a file is opened: as a score is, and which tune of several. */
export interface OpenFileOptions extends OpenOptions {
  /** Number or title of the tune, where the file has several. */
  readonly tune?: string;
  /** What a tune in ABC is written out as; MEI if not given. Files of other formats stay as they are. */
  readonly tuneFormat?: TuneFormat;
}

/**
 * Reads the harp part of a score file of any kind: MusicXML and MEI as `openScore` does, and a tune of an ABC file,
 * which becomes a score of our making in MEI or MusicXML.
 *
 * @returns the score, or the problem that keeps it from being read; never rejects on any input
 */
export const openScoreFile = async (
  bytes: Uint8Array,
  options: OpenFileOptions = {},
): Promise<Result<Score>> => {
  const { tune, tuneFormat = 'mei', ...own } = options;
  const abc = bytes.length > MAX_SCORE_BYTES ? ok(null) : readAbcFile(bytes);
  if (!abc.ok) return abc;
  if (abc.value === null) {
    return tune === undefined
      ? openScore(bytes, own)
      : fail({ code: 'unknown-tune', wanted: tune, tunes: [] });
  }
  const converted = await convertTune(abc.value.text, tune, tuneFormat);
  if (!converted.ok) return converted;
  const score = openScore(new TextEncoder().encode(converted.value.text), own);
  if (!score.ok) return score;
  const remarks = [...abc.value.remarks, ...converted.value.remarks, ...score.value.remarks];
  const { harp } = score.value;
  // No name of our making stands on the pages, which are in any language.
  const named = converted.value.isUnnamed ? { ...harp, name: '' } : harp;
  return ok({ ...score.value, isTune: true, harp: named, remarks });
};
