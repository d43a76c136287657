import { FEET, type Foot } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
import type { CostTerm } from './model.ts';
import type { Moments } from './moments.ts';
import { placeMoves } from './placing.ts';
import type { PedalCourse, PendingMove, PlacedNeed } from './positions.ts';
import { costTerms, followRinging } from './pricing.ts';
import { TIMES, WEIGHTS } from './weights.ts';

/** A move with its chosen moment. */
export interface PlacedMove {
  readonly letter: Letter;
  readonly foot: Foot;
  readonly pending: PendingMove;
  readonly moment: number;
  readonly tooSoon: boolean;
  readonly cost: readonly CostTerm[];
}

/**
 * Places all moves of one foot at their cheapest moments.
 *
 * @param paths the courses of the foot's pedals, in the order of `FEET`
 * @param needs the needs of the same pedals, in order of moment: their strings' ring is what a move disturbs
 */
export const placeFoot = (
  foot: Foot,
  paths: readonly PedalCourse[],
  needs: readonly (readonly PlacedNeed[])[],
  moments: Moments,
  secondsAt: (at: Rational) => number,
): PlacedMove[] => {
  const ringing = needs.map((each) => followRinging(each, secondsAt));
  const pending = paths.flatMap((path, pedal) => path.moves.map((move) => ({ move, pedal })));
  const placing = placeMoves(
    pending.map(({ move, pedal }) => ({
      pedal,
      open: move.open,
      close: move.close,
      priceAt: (moment) =>
        costTerms(move, moment, moments, ringing[pedal]!).reduce((sum, term) => sum + term.amount, 0),
    })),
    moments.all.map((moment) => moment.seconds),
    TIMES.footRestSeconds,
    WEIGHTS.footTooBusy,
  );
  return pending.map(({ move, pedal }, i) => ({
    letter: FEET[foot][pedal]!,
    foot,
    pending: move,
    moment: placing.moments[i]!,
    tooSoon: placing.tooSoon[i]!,
    cost: costTerms(move, placing.moments[i]!, moments, ringing[pedal]!),
  }));
};
