import { beatAt, formatBeat, type Rational, rationalKey, type Score } from '../../../engine/index.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import { printedBarNumber } from '../../markings/bar-number.ts';
import { chooseMarkings, type Marking } from '../../markings/markings.ts';
import { type EarlyMove, earlyMovesOf } from '../../markings/printed-moves.ts';
import { nameChange } from '../../sheets/note-words.ts';
import type { Words } from '../../words/worded.ts';
import { wordsOf } from '../../words/words.ts';
import type { PlacedHarp } from '../drawn-score.ts';
import type { ClosingSection } from './closing-notes.ts';

/** Where letters stand at the notes, which moves are made before that: the page itself says otherwise. */
export const tellEarlyMoves = (
  parts: readonly Pick<PlacedHarp, 'score' | 'plan'>[],
  engraving: EngravingOptions,
): ClosingSection => {
  const words = wordsOf(engraving);
  const told = parts.flatMap(({ score, plan: harp }) =>
    harp.kind === 'pedal'
      ? earlyMovesOf(score, harp.plan, engraving)
          .filter(hasLetter(chooseMarkings(score, harp.plan, engraving)))
          .map((early) => tellOne(score, early, engraving, words))
      : [],
  );
  return { heading: words.legend.earlier, notes: told.map((text) => ({ art: null, text })) };
};

/** Whether a move has a letter of its own where it is printed: a full setting before that may have told of it. */
const hasLetter = (markings: readonly Marking[]): ((early: EarlyMove) => boolean) => {
  const letters = new Set(
    markings.flatMap((marking) =>
      marking.kind === 'setting'
        ? []
        : [...marking.left, ...marking.right].map(({ letter }) => `${letter} ${rationalKey(marking.at)}`),
    ),
  );
  return ({ move, printed }) => letters.has(`${move.letter} ${rationalKey(printed.at)}`);
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
