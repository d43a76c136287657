import type { HarpName } from '../../../../engine/index.ts';
import type { ScoreFile } from '../service/annotate-request.ts';
import type { ComparedPart } from './compare-messages.ts';

/** The open part, as the thread that compares reads it. */
export const comparedPart = (
  { bytes, name: fileName, part, tune }: ScoreFile,
  instrument: HarpName,
): ComparedPart => ({ bytes, fileName, part, tune: tune ?? null, instrument });
