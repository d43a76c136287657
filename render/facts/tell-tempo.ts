import { capitalize, type Score, tempoUnitFinder } from '../../engine/index.ts';
import type { Words } from '../words/worded.ts';

/**
 * That the score prints no figure for its tempo at the start, and by which tempo all is reckoned instead; null where one
 * is printed.
 */
export const tellTempo = (
  score: Pick<Score, 'bars' | 'tempo' | 'texts'>,
  { card }: Pick<Words, 'card'>,
): string | null => {
  const [mark] = score.tempo;
  const [bar] = score.bars;
  if (mark === undefined || bar === undefined || mark.origin === 'metronome') return null;
  const { sign, quarters } = tempoUnitFinder(score)(bar);
  return card.tempo[mark.origin](`${sign} = ${Math.round(mark.quartersPerMinute / quarters)}`);
};

/** The same for sheets that speak of the full tempo, in sentences; none where a figure is printed. */
export const tellFullTempo = (
  score: Pick<Score, 'bars' | 'tempo' | 'texts'>,
  words: Words,
): readonly string[] => {
  const note = tellTempo(score, words);
  return note === null ? [] : [words.study.fullTempo(capitalize(note))];
};
