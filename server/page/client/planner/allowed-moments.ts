import {
  beatAt,
  buildClock,
  isPlace,
  LETTERS,
  type Letter,
  listMoments,
  type Move,
  type Plan,
  type PreparedScore,
  rationalKey,
  type Score,
  type SpellingNeeds,
  toNumber,
} from '../../../../engine/index.ts';
import type { MomentPlace, MomentRange } from './planned-part.ts';

/** The moments to which a move can be pinned: onsets and beats, not those of grace notes. */
export const listMomentPlaces = (score: Score): MomentPlace[] =>
  listMoments(score, buildClock(score.tempo))
    .all.filter(isPlace)
    .map(({ at, bar }) => ({
      barIndex: bar,
      beat: rationalKey(beatAt(score.bars[bar]!, at)),
      quarters: toNumber(at),
    }));

/** Indices of the moments of moves. */
const momentsOf = ({ moments }: PreparedScore, moves: readonly Move[]): number[] => {
  const byPlace = new Map(
    moments.all.map((moment, i) => [isPlace(moment) ? rationalKey(moment.at) : moment.graceNote, i]),
  );
  return moves.map(({ at, graceNote }) => byPlace.get(graceNote ?? rationalKey(at))!);
};

/**
 * For each move of a plan, the moments at which it could be made as the notes have it: after the last need of another
 * position, at the latest with the first need of the new one, and not past the pedal's own moves before and after.
 *
 * @returns ranges of the list of `listMomentPlaces`
 */
export const rangesOf = (prepared: PreparedScore, { needs }: SpellingNeeds, plan: Plan): MomentRange[] => {
  const { all } = prepared.moments;
  // For each moment, how many places to pin to lie before it.
  const placesBefore = [0];
  for (const moment of all) placesBefore.push(placesBefore.at(-1)! + Number(isPlace(moment)));
  // Before a movement all its moves can be made: none goes back into the movement before.
  const pauseUpTo = (at: number): number =>
    all.findLastIndex(({ pause }, moment) => moment < at && pause !== null);
  const made = momentsOf(prepared, plan.moves);
  const madeBy = new Map<Letter, number[]>(LETTERS.map((letter) => [letter, []]));
  plan.moves.forEach(({ letter }, i) => void madeBy.get(letter)!.push(made[i]!));
  return plan.moves.map(({ letter, to }, i) => {
    const at = made[i]!;
    const own = madeBy.get(letter)!;
    const placed = needs.get(letter)!;
    const lastOld = placed.findLast(({ moment, need }) => moment < at && need.position !== to);
    const firstNew = placed.find(({ moment }) => moment >= at);
    const first = Math.max(lastOld?.moment ?? -1, pauseUpTo(at), ...own.filter((moment) => moment < at));
    const last = Math.min(
      firstNew?.moment ?? all.length - 1,
      ...own.filter((moment) => moment > at).map((moment) => moment - 1),
    );
    return { first: placesBefore[first + 1]!, end: placesBefore[last + 1]! };
  });
};
