import { add, beatLength, compare, countBars, rational, type Score } from '../../engine/index.ts';
import type { Words } from '../words/worded.ts';

/**
 * How bars are counted where that does not go without saying: compound metres by their main beats, upbeats as the end
 * of a bar, and bars that a repeat divides from one part to the other.
 *
 * @returns sentences, none where each bar is counted from 1 by the beats of its metre
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
  const late = score.bars.filter(({ index, onset }) => compare(counted[index]!.countAt(onset), one) > 0);
  const upbeats = late.filter(({ index }) => index === 0 || score.movements.includes(index));
  return [
    ...(metres.length === 0 ? [] : [study.counting([...new Set(metres)].join(', '))]),
    ...(upbeats.length > 0 ? [study.countingUpbeat] : []),
    ...(late.length > upbeats.length ? [study.countingDivided] : []),
  ];
};
