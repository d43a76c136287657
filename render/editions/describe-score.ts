import { type HarpFinding, type HarpPlan, nameBarIn, type Score } from '../../engine/index.ts';
import type { Annotation } from '../annotation.ts';
import { listUnplayablePlaces } from '../markings/unplayable-places.ts';

/** What is told of a planned score whatever is drawn of it. */
export type ScoreDescription = Omit<Annotation, 'remarks' | 'turns' | 'pages' | 'pdf'>;

export const describeScore = (score: Score, harp: HarpPlan): ScoreDescription => ({
  titles: score.titles,
  part: { ids: score.harp.partIds, name: score.harp.name },
  parts: score.parts,
  bars: score.bars.length,
  barNumbers: score.bars.map((bar) => bar.number),
  barNames: score.bars.map(({ index }) => nameBarIn(score)(index)),
  plan: harp,
  unplayablePlaces: listUnplayablePlaces<HarpFinding>(score, harp.plan),
});
