import { toNumber } from '../../../../engine/index.ts';
import { STRINGS } from '../../strings.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import { stepAmong } from '../planner/moved-moment.ts';
import type { MomentPlace, ReadPart } from '../planner/planned-part.ts';
import type { MarkingMoves } from '../score/drag/marking-drag.ts';
import { letChangesGo, makeChangesAt } from './lever-actions.tsx';
import type { LeverIndex } from './lever-markings.ts';
import { allowedForChange, type LeverMoves, quartersOf } from './lever-moves.ts';

/** How the markings of a plan for the lever harp are moved on the page. */
export const leverMovesOnPage = (
  part: ReadPart,
  moves: LeverMoves,
  index: LeverIndex,
  actions: DecisionActions,
): MarkingMoves => {
  const told = (id: string): readonly number[] =>
    index.markingOfMove.flatMap((marking, move) => (marking?.id === id ? [move] : []));
  const allowedFor = (id: string): readonly MomentPlace[] => {
    const [first, ...others] = told(id).map((move) => allowedForChange(part, moves, move));
    return (first ?? []).filter((moment) => others.every((each) => each.includes(moment)));
  };
  const chart = { part, moves, actions };
  return {
    bars: part.bars,
    onsetOf: (note) => {
      const place = part.notes.get(note);
      return place === undefined ? null : toNumber(place.onset);
    },
    allowedFor,
    onDrop: (id, to) => makeChangesAt(chart, told(id), { at: to }),
    onStep: (id, direction) => {
      const [first] = told(id);
      if (first === undefined) return;
      const { at, graceNote } = moves[first]!;
      const now = { now: quartersOf(at), graceNote: graceNote !== null };
      const to = stepAmong(allowedFor(id), now, direction);
      if (to !== null) makeChangesAt(chart, told(id), { at: to });
    },
    onFree: (id) => letChangesGo(chart, told(id)),
    describe: (_, to) => STRINGS.detail.at(part.bars[to.barIndex]!.number, to.beat),
  };
};
