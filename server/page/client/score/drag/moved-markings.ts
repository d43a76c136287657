import { toNumber } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings/strings.ts';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { describeMoved, letAllGo, makeAllAt } from '../../decisions/move-actions.tsx';
import { describeBeginning, describeEnding } from '../../decisions/window-words.ts';
import { boundsOf } from '../../planner/move-bounds.ts';
import { allowedFor } from '../../planner/moved-moment.ts';
import type { PlannedPart } from '../../planner/planned-part.ts';
import type { PageIndex } from '../drawn/page-markings.ts';
import type { MarkingMoves } from './marking-drag.ts';
import { moveTogether } from './move-together.ts';

/** How the markings of a plan for the pedal harp are moved on the page. */
export const movesOnPage = (
  part: PlannedPart,
  index: PageIndex,
  actions: DecisionActions,
  /** Indices of the moves that are looked at. */
  lookedAt: readonly number[],
  /** A move is looked at from here on, wherever it goes: the marking that tells of it will be another. */
  onSelect: (move: number) => void,
): MarkingMoves => {
  const { moves } = part.plan;
  return moveTogether({
    part,
    lookedAt,
    movesOf: (id) => {
      const marking = index.markings.find((each) => each.id === id);
      return marking?.kind === 'change' ? marking.moves : [];
    },
    allowedFor: (move) => allowedFor(part, move),
    nowOf: (move) => ({ now: toNumber(moves[move]!.at), graceNote: moves[move]!.graceNote !== null }),
    makeAt: (told, to) => {
      onSelect(told[0]!);
      makeAllAt({ part, actions }, told, to);
    },
    // The end that a marking is dragged against is told in words.
    tryAt: () => {},
    free: (told) => letAllGo({ part, actions }, told),
    describe: (told, { to, wanted, allowed }) => {
      const [first, last] = [allowed[0]!.quarters, allowed.at(-1)!.quarters];
      const reasons = told.flatMap((at) => {
        const bounds = boundsOf(part, at);
        if (wanted < first) return describeBeginning(part, bounds) ?? [];
        return wanted > last ? (describeEnding(part, bounds) ?? []) : [];
      });
      return STRINGS.score.draggedTo(describeMoved(part, told, to), [...new Set(reasons)]);
    },
  });
};
