import { beatAt, equals, type Plan, type Rational, type Score } from '../../engine/index.ts';
import { type PlaceOptions, placesToMark } from './places-to-mark.ts';
import { printMoves } from './printed-moves.ts';

/** A move that the part tells at another beat than the plan does. */
export interface ToldElsewhere {
  /** Index into the plan's moves. */
  readonly move: number;
  /** Where its marking stands. */
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  readonly beat: Rational;
}

/**
 * The moves that a reader of the part finds elsewhere than a reader of the plan, in the plan's order: those of a silence that
 * are told together, and with letters at their notes most others. What is done in a bar of rest, both tell at its start.
 */
export const movesToldElsewhere = (
  score: Score,
  plan: Plan,
  options: PlaceOptions,
): readonly ToldElsewhere[] => {
  const places = placesToMark(score, plan, options, [], printMoves(score, plan, options.marksAt));
  const placeOf = new Map(places.flatMap((place) => place.moves.map((move) => [move, place])));
  return plan.moves.flatMap((move, index) => {
    const place = placeOf.get(move);
    if (place === undefined) return [];
    const { at, bar } = place;
    const beat = beatAt(score.bars[bar]!, at);
    return bar === move.bar && equals(beat, move.beat) ? [] : [{ move: index, at, bar, beat }];
  });
};
