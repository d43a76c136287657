import { beatAt, formatBeat, type Rational, type Score } from '../../../engine/index.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { printedBarNumber } from '../../markings/bar-number.ts';
import { type EarlyMove, earlyMovesOf } from '../../markings/early-moves.ts';
import { nameChange } from '../../sheets/note-words.ts';
import type { Words } from '../../words/worded.ts';
import { wordsOf } from '../../words/words.ts';
import type { PlacedHarp } from '../drawn-score.ts';
import type { ClosingSection } from './closing-notes.ts';

/** Where letters stand at the notes, which moves are made before that: the page itself says otherwise. */
export const tellEarlyMoves = (
  parts: readonly Pick<PlacedHarp, 'score' | 'plan'>[],
  engraving: EngravingOptions,
  reminders: readonly number[] = [],
): ClosingSection => {
  const words = wordsOf(engraving);
  const told = parts.flatMap(({ score, plan: harp }) =>
    harp.kind === 'pedal'
      ? earlyMovesOf(score, harp.plan, engraving, reminders).map((early) =>
          tellOne(score, early, engraving, words),
        )
      : [],
  );
  return { heading: words.legend.earlier, notes: told.map((text) => ({ art: null, text })) };
};

const tellOne = (
  score: Score,
  { move, printed }: EarlyMove,
  { naming }: EngravingOptions,
  { labelled, legend, places }: Words,
): string => {
  const placeAt = (bar: number, at: Rational): string => {
    const there = score.bars[bar]!;
    return places.beatInBar(printedBarNumber(there.number), formatBeat(beatAt(there, at)));
  };
  const change = nameChange(move.letter, move.to, naming);
  return labelled(placeAt(printed.bar, printed.at), legend.already(change, placeAt(move.bar, move.at)));
};
