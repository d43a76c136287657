import { continuedBars, countBars, type HarpPlan, type Rational, type Score } from '../../engine/index.ts';
import { type Drawing, drawPath, PADDING_VU } from '../draw/drawing.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import { textOutline } from '../text/glyphs.ts';
import { barsWithNotes } from './bars-with-notes.ts';

/** A count over the music. */
export interface BeatCount {
  /** Unique on the pages of a part. */
  readonly id: string;
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  /** From 1. */
  readonly count: number;
}

/** What is counted over the music; bars in which the harp is silent are not, unless they are a piece of one in which it plays. */
export const listCounts = (
  score: Score,
  { plan }: Pick<HarpPlan, 'plan'>,
  wanted: EngravingOptions['beatCounts'],
): readonly BeatCount[] => {
  if (wanted === 'none') return [];
  const sounding = barsWithNotes(score);
  const changing = new Set(plan.moves.map(({ bar }) => bar));
  const counted = countBars(score);
  const continued = continuedBars(score);
  const plays = (bar: number): boolean =>
    sounding.has(bar) ||
    (continued.has(bar) && sounding.has(bar - 1)) ||
    (continued.has(bar + 1) && sounding.has(bar + 1));
  return score.bars
    .filter(({ index }) => plays(index) && (wanted === 'every-bar' || changing.has(index)))
    .flatMap(({ index }) =>
      counted[index]!.counts.map(({ at, count }) => ({
        id: `count-${index}-${count}`,
        at,
        bar: index,
        count,
      })),
    );
};

const SIZE_VU = 3;
const HEIGHT_VU = SIZE_VU * 0.7;

export const drawCount = ({ count }: Pick<BeatCount, 'count'>): Drawing => {
  const { pathData, width } = textOutline(`${count}`, { style: 'regular', sizeUnits: SIZE_VU });
  return {
    box: { widthVu: width + 2 * PADDING_VU, heightVu: HEIGHT_VU + 2 * PADDING_VU },
    body: drawPath(pathData, PADDING_VU, PADDING_VU + HEIGHT_VU, 1),
    text: `${count}`,
  };
};
