import type { Score } from '../../../engine/index.ts';
import { timeInWords } from '../../levers/lever-words.ts';
import { returnTime } from '../../markings/markings.ts';
import { countPasses } from '../../markings/passes.ts';
import type { Sheet } from '../../sheets/sheet.ts';
import { wordsOf } from '../../words/words.ts';
import type { Placed } from './columns.ts';

/** For which time of playing moves of one moment are made; null where they are made every time. */
export type TellTime = (moves: readonly Placed[]) => string | null;

/** As the page has it beside what is made at one time of playing alone. */
export const timeTeller = (score: Score, sheet: Pick<Sheet, 'language'>): TellTime => {
  const timesPlayed = countPasses(score);
  const { times } = wordsOf(sheet).inWords;
  return ([move]) => {
    if (move === undefined) return null;
    const played = { timesPlayed: timesPlayed(move.bar) };
    if (move.onlyAt != null) return timeInWords(move.onlyAt, played, times);
    return move.restores ? returnTime(played, times) : null;
  };
};
