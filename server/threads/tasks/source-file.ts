import { strToU8, zipSync } from 'fflate';
import type { Score } from '../../../engine/index.ts';
import { repackScore, SOURCE_TYPES, type SourceKind, sourceKindOf } from '../../../render/pure.ts';
import { fail, type Outcome } from '../../service-problem.ts';

/** A score file as it leaves the service. */
export interface SourceFile {
  readonly kind: SourceKind;
  readonly bytes: Uint8Array;
}

const CONTAINER =
  '<?xml version="1.0" encoding="UTF-8"?>\n<container><rootfiles><rootfile full-path="score.musicxml" media-type="application/vnd.recordare.musicxml+xml"/></rootfiles></container>\n';

/** The kinds of file that a score can be written as: its own first. MusicXML is packed or unpacked, but never made of MEI. */
const kindsFor = (score: Score): readonly SourceKind[] => {
  const own = sourceKindOf(score);
  if (own === 'mei') return ['mei'];
  return own === 'mxl' ? ['mxl', 'musicxml'] : ['musicxml', 'mxl'];
};

/**
 * Puts an annotated score's text into a file of a kind that is wanted.
 *
 * @param original the bytes in which the score came
 * @param text the annotated score file, not packed
 * @param wanted kinds that will do
 * @returns the file, or `not-acceptable` where it can be made in none of these kinds
 */
export const writeSourceFile = (
  score: Score,
  original: Uint8Array,
  text: Uint8Array,
  wanted: readonly SourceKind[],
): Outcome<SourceFile> => {
  const possible = kindsFor(score);
  const kind = possible.find((each) => wanted.includes(each));
  if (kind === undefined) {
    return fail({ code: 'not-acceptable', offered: possible.map((each) => SOURCE_TYPES[each]) });
  }
  if (kind !== 'mxl') return { ok: true, value: { kind, bytes: text } };
  if (score.source.archivePath === null) {
    // A fixed date: the same score gives the same bytes.
    const bytes = zipSync(
      { 'META-INF/container.xml': strToU8(CONTAINER), 'score.musicxml': text },
      { mtime: new Date(1980, 0, 1) },
    );
    return { ok: true, value: { kind, bytes } };
  }
  const packed = repackScore(original, score.source.archivePath, text);
  return packed.ok ? { ok: true, value: { kind, bytes: packed.value } } : packed;
};
