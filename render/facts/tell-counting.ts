import { add, beatLength, compare, countBars, rational, type Score } from '../../engine/index.ts';
import type { Words } from '../words/worded.ts';

/**
 * How the counts of the sheets go with the beats that are told elsewhere: of compound metres, whose main beats are
 * counted, and of upbeats, which are counted as the end of a bar.
 *
 * @returns sentences, none where counts and beats are the same
 */
export const tellCounting = (
  score: Pick<Score, 'bars' | 'movements' | 'texts'>,
  { study }: Words,
): readonly string[] => {
  const counted = countBars(score);
  const one = rational(1);
  const metres = score.bars.flatMap(({ index, onset, meter }) => {
    const { countAt } = counted[index]!;
    const next = countAt(add(onset, beatLength(meter)));
    return compare(next, add(countAt(onset), one)) < 0
      ? [`${meter.beats}/${meter.beatUnit}: ${meter.beats / 3}`]
      : [];
  });
  const isUpbeat = score.bars.some(({ index, onset }) => compare(counted[index]!.countAt(onset), one) > 0);
  return [
    ...(metres.length === 0 ? [] : [study.counting([...new Set(metres)].join(', '))]),
    ...(isUpbeat ? [study.countingUpbeat] : []),
  ];
};
