import { add, beatLength, compare, countBars, rational, type Score } from '../../engine/index.ts';
import type { Words } from '../words/worded.ts';

/**
 * How the counts of the sheets go with the beats that are told elsewhere: of compound metres, whose main beats are
 * counted, of upbeats, which are counted as the end of a bar, and of bars that a repeat divides.
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
  const late = score.bars.filter(({ index, onset }) => compare(counted[index]!.countAt(onset), one) > 0);
  const upbeats = late.filter(({ index }) => index === 0 || score.movements.includes(index));
  return [
    ...(metres.length === 0 ? [] : [study.counting([...new Set(metres)].join(', '))]),
    ...(upbeats.length > 0 ? [study.countingUpbeat] : []),
    ...(late.length > upbeats.length ? [study.countingDivided] : []),
  ];
};
