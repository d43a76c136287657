import type { Score } from '../../engine/score/model/score.ts';

/** The checkers' own arithmetic of time: nothing of the planner's is used. */
export const value = (fraction: { readonly num: number; readonly den: number }): number =>
  fraction.num / fraction.den;

/** Clock time between two score times of the printed order, by the tempo marks. */
export const secondsBetween = (score: Score, from: number, to: number): number => {
  let seconds = 0;
  score.tempo.forEach((mark, i) => {
    const begins = i === 0 ? Number.NEGATIVE_INFINITY : value(mark.at);
    const next = score.tempo[i + 1];
    const ends = next === undefined ? Number.POSITIVE_INFINITY : value(next.at);
    const overlap = Math.min(to, ends) - Math.max(from, begins);
    if (overlap > 0) seconds += (overlap * 60) / mark.quartersPerMinute;
  });
  return seconds;
};

/**
 * Whether the music stops before the bar that is played as number `index`: where a movement begins behind a final bar
 * line, if no repeat leads back to it.
 */
export const stopsBefore = ({ pauses, playOrder }: Score, index: number): boolean =>
  index > 0 && pauses.includes(playOrder[index]!) && playOrder[index - 1]! < playOrder[index]!;
