import type { Score } from '../../engine/index.ts';
import { restsBeforeEntries } from '../cues/rests-before-entries.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { EntryAfterRest } from '../layout/layout-request.ts';
import { needsPedalsFrom } from '../markings/needs-pedals.ts';
import type { PrintedMarking } from '../markings/printed-markings.ts';

/** A setting so many bars before the entry is lost sight of where a line begins between them (common practice, no source). */
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
  const withoutDiscs = markings.flatMap((each) => (each.kind === 'tuning' ? each.withoutDiscs : []));
  return restsBeforeEntries(score).flatMap(({ bar, bars }) => {
    const last = told.findLast((each) => each <= bar);
    if (bars < afterRestBars || last === undefined) return [];
    if (!needsPedalsFrom(score, withoutDiscs, score.bars[bar]!.onset)) return [];
    return [{ bar, told: last, isForgotten: bar - last >= FORGOTTEN_BARS }];
  });
};
