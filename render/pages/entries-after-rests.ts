import type { Score } from '../../engine/index.ts';
import { restsBeforeEntries } from '../cues/rests-before-entries.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { EntryAfterRest } from '../layout/layout-request.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';

/** After so many bars a player has lost sight of the setting at the end of the line before (common practice, no source). */
const FORGOTTEN_BARS = 20;

/**
 * Where the harp comes in after a rest that asks for a setting of the pedals, and where the last setting before is told: in
 * the rest, or for a rest before the first note where the part begins.
 *
 * @param markings those of the part, without any at the starts of lines and pages
 */
export const entriesAfterRests = (
  score: Score,
  markings: readonly PrintedMarking[],
  { density, settings: { afterRestBars } }: Pick<EngravingOptions, 'density' | 'settings'>,
): readonly EntryAfterRest[] => {
  if (afterRestBars === null || density === 'changes') return [];
  const told = markings.filter(({ kind }) => kind === 'setting').map(({ bar }) => bar);
  return restsBeforeEntries(score).flatMap(({ bar, bars }) => {
    const last = told.findLast((each) => each <= bar);
    if (bars < afterRestBars || last === undefined) return [];
    return [{ bar, told: last, isForgotten: bars >= FORGOTTEN_BARS }];
  });
};
