import type { Foot, Position } from '../harp/setting.ts';
import { LETTERS, type Letter } from '../music/pitch.ts';
import type { PlacedNeed } from './choices.ts';
import { type PlacedMove, planFoot, type Stage } from './foot.ts';
import type { Moments } from './moments.ts';
import type { Need } from './needs.ts';

/** What both feet do for a list of needs. */
export interface Solution {
  readonly initial: ReadonlyMap<Letter, Position>;
  /** In order of moment; at one moment in pedal order. */
  readonly moves: readonly PlacedMove[];
  readonly unserved: readonly Need[];
}

/** The best plan for the needs: each foot on its own, since they do not hinder each other. */
export const solveFeet = (needs: ReadonlyMap<Letter, readonly PlacedNeed[]>, stage: Stage): Solution => {
  const feet = (['left', 'right'] as const satisfies readonly Foot[]).map((foot) =>
    planFoot(foot, needs, stage),
  );
  return {
    initial: new Map(feet.flatMap((foot) => [...foot.initial])),
    moves: feet
      .flatMap((foot) => foot.moves)
      .sort((a, b) => a.moment - b.moment || LETTERS.indexOf(a.letter) - LETTERS.indexOf(b.letter)),
    unserved: feet.flatMap((foot) => foot.unserved),
  };
};

/** Needs by letter at their moments, in order; a held need stands at every moment of its span. */
export const placeNeeds = (
  needs: readonly Need[],
  moments: Moments,
): ReadonlyMap<Letter, readonly PlacedNeed[]> => {
  const placed = new Map<Letter, PlacedNeed[]>(LETTERS.map((letter) => [letter, []]));
  for (const need of needs) {
    const first = moments.ofNote(need.note);
    const last = Math.max(first, moments.lastBefore(need.heldUntil));
    for (let moment = first; moment <= last; moment += 1) placed.get(need.letter)!.push({ need, moment });
  }
  for (const each of placed.values()) each.sort((a, b) => a.moment - b.moment);
  return placed;
};
