import { compare, type Move, type PedalFinding, type Plan, toNumber } from '../../../../engine/index.ts';
import type { PageIndex } from '../score/drawn/page-markings.ts';
import { nearestAlike } from './nearest-alike.ts';
import { movesOf } from './selected-moves.ts';
import type { Spot } from './spot.ts';

/** The same move in another plan: of this pedal into this position, the nearest in time; null where there is none. */
const followMove = (before: Move, { moves }: Plan): number | null => {
  const from = toNumber(before.at);
  return nearestAlike(
    moves,
    ({ letter, to }) => letter === before.letter && to === before.to,
    ({ at }) => Math.abs(toNumber(at) - from),
  );
};

/** The same finding in another plan; of a passage that was joined or fixed in part, the one that shares a note. */
const followFinding = (before: PedalFinding, { findings }: Plan): number | null => {
  const isSame = ({ code, bar, beat, notes }: PedalFinding): boolean =>
    code === before.code &&
    bar === before.bar &&
    compare(beat, before.beat) === 0 &&
    notes.join(' ') === before.notes.join(' ');
  const isOfPassage = ({ code, notes }: PedalFinding): boolean =>
    before.places.length > 1 && code === before.code && notes.some((note) => before.notes.includes(note));
  const same = findings.findIndex(isSame);
  const at = same === -1 ? findings.findIndex(isOfPassage) : same;
  return at === -1 ? null : at;
};

/**
 * What the user looks at, found again after the plan has changed: moves and findings are counted anew in each plan.
 *
 * @returns null where it is no longer there
 */
export const followSpot = (spot: Spot, before: Plan, now: Plan): Spot | null => {
  switch (spot.kind) {
    case 'marking':
    case 'note':
    case 'place':
      return spot;
    case 'move': {
      const move = followMove(before.moves[spot.move]!, now);
      return move === null ? null : { kind: 'move', move };
    }
    case 'finding': {
      const finding = followFinding(before.findings[spot.finding]!, now);
      return finding === null ? null : { kind: 'finding', finding };
    }
  }
};

/**
 * A marking whose move another plan makes elsewhere: from there on that move is looked at, wherever it is printed.
 *
 * @param index of the plan before
 * @returns null where nothing of a marking is moved
 */
export const followMovedMarking = (
  spot: Spot,
  index: PageIndex | null,
  before: Plan,
  now: Plan,
): Spot | null => {
  for (const at of spot.kind === 'marking' ? movesOf(spot, index) : []) {
    const old = before.moves[at]!;
    const move = followMove(old, now);
    if (move !== null && compare(now.moves[move]!.at, old.at) !== 0) return { kind: 'move', move };
  }
  return null;
};

/**
 * A marking that the user looks at, found again on pages that were drawn anew: markings are counted anew too.
 *
 * @returns null where none of its kind stands in its place
 */
export const followMarking = (spot: Spot, before: PageIndex | null, now: PageIndex | null): Spot | null => {
  if (spot.kind !== 'marking' || now === null) return spot;
  const old = before?.markings.find(({ id }) => id === spot.id);
  const there = now.markings.filter(
    ({ kind, bar, onsetQuarters }) =>
      kind === old?.kind && bar === old.bar && onsetQuarters === old.onsetQuarters,
  );
  const found = there.find(({ pedals }) => pedals === old?.pedals) ?? there[0];
  return found === undefined ? null : found.id === spot.id ? spot : { kind: 'marking', id: found.id };
};
