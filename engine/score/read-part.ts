import type { Result } from '../problem.ts';
import { readMei } from './mei/read.ts';
import type { Score } from './model/score.ts';
import { readMusicXml } from './musicxml/read.ts';

/**
 * Reads another part of a score that has been opened, as if it were the harp: its bars are those of the score, and its
 * pitches sound as they are told.
 *
 * @param part id of the part
 * @returns the problems of `openScore`; `no-notes` for a part that has no pitches
 */
export const readPart = ({ source }: Score, part: string): Result<Score> =>
  source.format === 'mei'
    ? readMei(source.root, source, { part })
    : readMusicXml(source.root, source, { part });
