import type { Score } from '../../../engine/index.ts';
import { timeInWords } from '../../levers/lever-words.ts';
import { returnTime } from '../../markings/markings.ts';
import { countPasses } from '../../markings/passes.ts';
import type { Sheet } from '../../sheets/sheet.ts';
import type { Words } from '../../words/worded.ts';
import { wordsOf } from '../../words/words.ts';
import type { Placed } from './columns.ts';

/** For which time of playing moves of one moment are made; null where they are made every time. */
export type TellTime = (moves: readonly Placed[]) => string | null;

/**
 * As the page has it beside a move that is made at one time of playing alone; null where it is made every time.
 *
 * @param timesPlayed how often a bar (index) is played
 */
export const timeOfMove = (
  { bar, onlyAt, restores }: Pick<Placed, 'bar' | 'onlyAt' | 'restores'>,
  timesPlayed: (bar: number) => number,
  times: Words['inWords']['times'],
): string | null => {
  const played = { timesPlayed: timesPlayed(bar) };
  if (onlyAt != null) return timeInWords(onlyAt, played, times);
  return restores ? returnTime(played, times) : null;
};

export const timeTeller = (score: Score, sheet: Pick<Sheet, 'language'>): TellTime => {
  const timesPlayed = countPasses(score);
  const { times } = wordsOf(sheet).inWords;
  return ([move]) => (move === undefined ? null : timeOfMove(move, timesPlayed, times));
};
