import { type HarpFinding, type HarpPlan, nameBarIn, type Score } from '../../engine/index.ts';
import type { Annotation } from '../annotation.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { movesToldElsewhere } from '../markings/told-elsewhere.ts';
import { listUnplayablePlaces } from '../markings/unplayable-places.ts';

/** What is told of a planned score whatever is drawn of it. */
export type ScoreDescription = Omit<Annotation, 'remarks' | 'turns' | 'pages' | 'pdf'>;

export const describeScore = (
  score: Score,
  harp: HarpPlan,
  engraving: EngravingOptions,
): ScoreDescription => ({
  titles: score.titles,
  part: { ids: score.harp.partIds, name: score.harp.name },
  parts: score.parts,
  bars: score.bars.length,
  barNumbers: score.bars.map((bar) => bar.number),
  barNames: score.bars.map(({ index }) => nameBarIn(score)(index)),
  plan: harp,
  toldElsewhere: harp.kind === 'pedal' ? movesToldElsewhere(score, harp.plan, engraving) : [],
  unplayablePlaces: listUnplayablePlaces<HarpFinding>(score, harp.plan),
});
