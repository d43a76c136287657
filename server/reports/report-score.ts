import type { Score } from '../../engine/index.ts';

/** What every report says of the score it is about. */
export const reportScore = (score: Score) => ({
  ...score.titles,
  part: { ids: score.harp.partIds, name: score.harp.name },
  parts: score.parts,
  bars: score.bars.length,
});
