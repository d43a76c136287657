import { stepAmong } from '../../planner/moved-moment.ts';
import type { MomentPlace, ReadPart } from '../../planner/planned-part.ts';
import type { MarkingMoves, StepOutcome } from './marking-drag.ts';
import { musicOf } from './page-times.ts';

/** The moves that the markings of either harp tell of: indices into its plan's moves. */
export interface MarkedMoves {
  readonly part: Pick<ReadPart, 'bars' | 'notes'>;
  readonly movesOf: (marking: string) => readonly number[];
  /**
   * Those that are looked at: a key is meant for them wherever their marking stands by now, since pages that are being
   * redrawn show them where they were.
   */
  readonly lookedAt: readonly number[];
  /** The moments at which one could be made, in order of time. */
  readonly allowedFor: (move: number) => readonly MomentPlace[];
  /** When one is made, as `stepAmong` takes it. */
  readonly nowOf: (move: number) => Parameters<typeof stepAmong>[1];
  readonly makeAt: (moves: readonly number[], to: MomentPlace) => void;
  readonly tryAt: (
    moves: readonly number[],
    to: MomentPlace,
    onTold: (trouble: readonly string[]) => void,
  ) => void;
  readonly free: (moves: readonly number[]) => void;
  /** The place in words; and why it goes no further, where it is wanted further. */
  readonly describe: (
    moves: readonly number[],
    at: { readonly to: MomentPlace; readonly wanted: number; readonly allowed: readonly MomentPlace[] },
  ) => string;
}

/** The moves of one marking are made together, and moved together: to moments that all of them share. */
export const moveTogether = (harp: MarkedMoves): MarkingMoves => {
  const { part, movesOf, lookedAt, nowOf, makeAt } = harp;
  const sharedBy = (moves: readonly number[]): readonly MomentPlace[] => {
    const [first, ...others] = moves.map(harp.allowedFor);
    return (first ?? []).filter((moment) => others.every((each) => each.includes(moment)));
  };
  const meantBy = (marking: string): readonly number[] => {
    const told = movesOf(marking);
    return lookedAt.length === 0 || lookedAt.some((move) => told.includes(move)) ? told : lookedAt;
  };
  return {
    ...musicOf(part),
    allowedFor: (marking) => sharedBy(movesOf(marking)),
    onDrop: (marking, to) => {
      const moves = movesOf(marking);
      // What falls where it was is not moved, and nothing is decided about it.
      if (moves.some((move) => nowOf(move).now !== to.quarters)) makeAt(moves, to);
    },
    onStep: (marking, direction): StepOutcome => {
      const moves = meantBy(marking);
      if (moves[0] === undefined) return 'not-movable';
      const to = stepAmong(sharedBy(moves), nowOf(moves[0]), direction);
      if (to === null) return 'at-end';
      makeAt(moves, to);
      return 'done';
    },
    onFree: (marking): StepOutcome => {
      const moves = meantBy(marking);
      harp.free(moves);
      return moves.length === 0 ? 'not-movable' : 'done';
    },
    describe: (marking, to, wanted) => {
      const moves = movesOf(marking);
      return harp.describe(moves, { to, wanted, allowed: sharedBy(moves) });
    },
    tryAt: (marking, to, onTold) => harp.tryAt(movesOf(marking), to, onTold),
  };
};
