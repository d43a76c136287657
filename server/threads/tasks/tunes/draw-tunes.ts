import type { Result } from '../../../../engine/index.ts';
import type { BoundSheets } from '../../../../render/index.ts';
import type { SetMusic } from '../../../../render/pure.ts';
import { type RatedTune, setSheet, setTunes, tuneSheet } from '../../../reports/tune-table.ts';

/** The table of tunes as sheets, or a set with as much of its music as is wanted; loads the renderer. */
export const drawTunes = async (
  set: boolean,
  tunes: readonly RatedTune[],
  music: SetMusic,
): Promise<Result<BoundSheets>> => {
  const { drawSet, drawTable } = await import('../../../../render/index.ts');
  if (!set) return drawTable(tuneSheet(tunes));
  const opened = music === 'none' ? [] : await Promise.all(setTunes(tunes).map(({ open }) => open()));
  return drawSet(setSheet(tunes), opened, music);
};
