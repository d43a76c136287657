import { STRINGS } from '../../strings/strings.ts';
import type { DecisionActions } from '../decisions/decision-actions.ts';
import type { ReadPart } from '../planner/planned-part.ts';
import type { MarkingMoves } from '../score/drag/marking-drag.ts';
import { moveTogether } from '../score/drag/move-together.ts';
import { changesOfMarking, type LeverIndex } from './lever-markings.ts';
import { allowedForChange, type LeverMoves, quartersOf } from './lever-moves.ts';
import { letChangesGo, makeChangesAt, tryChangesAt } from './side/lever-actions.tsx';

/** How the markings of a plan for the lever harp are moved on the page. */
export const leverMovesOnPage = (
  part: ReadPart,
  moves: LeverMoves,
  index: LeverIndex,
  actions: DecisionActions,
  /** Index of the change that is looked at; null for none. */
  lookedAt: number | null,
): MarkingMoves =>
  moveTogether({
    part,
    lookedAt: lookedAt === null ? [] : [lookedAt],
    movesOf: (id) => changesOfMarking(index, id),
    allowedFor: (move) => allowedForChange(part, moves, move),
    nowOf: (move) => ({ now: quartersOf(moves[move]!.at), graceNote: moves[move]!.graceNote !== null }),
    makeAt: (told, to) => makeChangesAt({ part, moves, actions }, told, { at: to }),
    tryAt: (told, to, onTold) => tryChangesAt({ part, moves, actions }, told, to, onTold),
    free: (told) => letChangesGo({ part, moves, actions }, told),
    describe: (_, { to }) => STRINGS.detail.at(part.bars[to.barIndex]!.name, to.beat),
  });
