import type { Score } from '../../../engine/index.ts';
import { returnTime } from '../../markings/markings.ts';
import { countPasses } from '../../markings/passes.ts';
import type { Sheet } from '../../sheets/sheet.ts';
import { wordsOf } from '../../words/words.ts';
import type { Placed } from './columns.ts';

/** For which time of playing moves of one moment are made; null where they are made every time. */
export type TellTime = (moves: readonly Placed[]) => string | null;

/** As the page has it beside what is made only when the music comes back. */
export const timeTeller = (score: Score, sheet: Pick<Sheet, 'language'>): TellTime => {
  const timesPlayed = countPasses(score);
  const { times } = wordsOf(sheet).inWords;
  return ([move]) => (move?.restores ? returnTime({ timesPlayed: timesPlayed(move.bar) }, times) : null);
};
