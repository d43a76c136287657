import { stepAmong } from '../../planner/moved-moment.ts';
import type { MomentPlace, ReadPart } from '../../planner/planned-part.ts';
import type { MarkingMoves } from './marking-drag.ts';
import { musicOf } from './page-times.ts';

/** The moves that the markings of either harp tell of: indices into its plan's moves. */
export interface MarkedMoves {
  readonly part: Pick<ReadPart, 'bars' | 'notes'>;
  readonly movesOf: (marking: string) => readonly number[];
  /** The moments at which one could be made, in order of time. */
  readonly allowedFor: (move: number) => readonly MomentPlace[];
  /** When one is made, as `stepAmong` takes it. */
  readonly nowOf: (move: number) => Parameters<typeof stepAmong>[1];
  readonly makeAt: (moves: readonly number[], to: MomentPlace) => void;
  readonly free: (moves: readonly number[]) => void;
  /** The place in words; and why it goes no further, where it is wanted further. */
  readonly describe: (
    moves: readonly number[],
    at: { readonly to: MomentPlace; readonly wanted: number; readonly allowed: readonly MomentPlace[] },
  ) => string;
}

/** The moves of one marking are made together, and moved together: to moments that all of them share. */
export const moveTogether = (harp: MarkedMoves): MarkingMoves => {
  const { part, movesOf, nowOf, makeAt } = harp;
  const allowedFor = (marking: string): readonly MomentPlace[] => {
    const [first, ...others] = movesOf(marking).map(harp.allowedFor);
    return (first ?? []).filter((moment) => others.every((each) => each.includes(moment)));
  };
  return {
    ...musicOf(part),
    allowedFor,
    onDrop: (marking, to) => makeAt(movesOf(marking), to),
    onStep: (marking, direction) => {
      const moves = movesOf(marking);
      if (moves[0] === undefined) return;
      const to = stepAmong(allowedFor(marking), nowOf(moves[0]), direction);
      if (to !== null) makeAt(moves, to);
    },
    onFree: (marking) => harp.free(movesOf(marking)),
    describe: (marking, to, wanted) =>
      harp.describe(movesOf(marking), { to, wanted, allowed: allowedFor(marking) }),
  };
};
