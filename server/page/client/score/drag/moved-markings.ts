import { formatChange, type MoveWindow, toNumber } from '../../../../../engine/index.ts';
import { STRINGS } from '../../../strings.ts';
import type { DecisionActions } from '../../decisions/decision-actions.ts';
import { letAllGo, makeAllAt } from '../../decisions/move-actions.tsx';
import { allowedFor, stepAmong } from '../../planner/moved-moment.ts';
import type { MomentPlace, PlannedPart } from '../../planner/planned-part.ts';
import type { PageIndex } from '../page-markings.ts';
import type { MarkingMoves } from './marking-drag.ts';

const words = STRINGS.detail;

/** The note that lets a move come no earlier, or no later, in words. */
export const describeEnd = (
  part: Pick<PlannedPart, 'notes' | 'bars'>,
  end: MoveWindow['after'],
  tell: (note: string, bar: string) => string,
  otherwise: string,
): string => {
  const note = end === null ? undefined : part.notes.get(end.note);
  return note === undefined ? otherwise : tell(note.name, part.bars[note.bar]!.number);
};

const movesTold = (index: PageIndex, id: string): readonly number[] => {
  const marking = index.markings.find((each) => each.id === id);
  return marking?.kind === 'change' ? marking.moves : [];
};

/** Moments that all moves of a marking share: they are made together, and moved together. */
const sharedMoments = (part: PlannedPart, moves: readonly number[]): readonly MomentPlace[] => {
  const [first, ...others] = moves.map((move) => allowedFor(part, move));
  return (first ?? []).filter((moment) => others.every((each) => each.includes(moment)));
};

/** How the markings of a plan for the pedal harp are moved on the page. */
export const movesOnPage = (
  part: PlannedPart,
  index: PageIndex,
  actions: DecisionActions,
  /** A move is looked at from here on, wherever it goes: the marking that tells of it will be another. */
  onSelect: (move: number) => void,
): MarkingMoves => ({
  bars: part.bars,
  onsetOf: (note) => {
    const place = part.notes.get(note);
    return place === undefined ? null : toNumber(place.onset);
  },
  allowedFor: (marking) => sharedMoments(part, movesTold(index, marking)),
  onStep: (marking, direction) => {
    const moves = movesTold(index, marking);
    const [first] = moves;
    if (first === undefined) return;
    const { at, graceNote } = part.plan.moves[first]!;
    const now = { now: toNumber(at), graceNote: graceNote !== null };
    const to = stepAmong(sharedMoments(part, moves), now, direction);
    onSelect(first);
    if (to !== null) makeAllAt({ part, actions }, moves, to);
  },
  onFree: (marking) => letAllGo({ part, actions }, movesTold(index, marking)),
  onDrop: (marking, to) => {
    const moves = movesTold(index, marking);
    onSelect(moves[0]!);
    makeAllAt({ part, actions }, moves, to);
  },
  describe: (marking, to, wanted) => {
    const moves = movesTold(index, marking);
    const changes = moves.map((at) => formatChange(part.plan.moves[at]!.letter, part.plan.moves[at]!.to));
    const place = `${changes.join(' ')}, ${words.at(part.bars[to.barIndex]!.number, to.beat)}`;
    const allowed = sharedMoments(part, moves);
    const windows = moves.map((move) => part.plan.moves[move]!.window);
    const [first, last] = [allowed[0]!.quarters, allowed.at(-1)!.quarters];
    const reasons = windows.map(({ after, before }) => {
      if (wanted < first) return describeEnd(part, after, words.after, '');
      return wanted > last ? describeEnd(part, before, words.before, '') : '';
    });
    return [place, ...new Set(reasons.filter((reason) => reason !== ''))].join(': ');
  },
});
