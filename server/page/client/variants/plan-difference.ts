import { LETTERS, type Letter, type Move, type Plan, toNumber } from '../../../../engine/index.ts';

/** In what two plans of one part differ. Indices into the moves of each. */
export interface PlanDifference {
  /** Made in both, but at another moment. */
  readonly elsewhere: readonly { readonly here: number; readonly there: number }[];
  readonly onlyHere: readonly number[];
  readonly onlyThere: readonly number[];
  /** Pedals that stand otherwise before the piece. */
  readonly initial: readonly Letter[];
}

/** Moves of one pedal into one position so near in both plans are one move at another moment. In quarters. */
const NEAR = 16;

/** Indices of moves by pedal and new position, in order of time. */
const byGoal = (moves: readonly Move[]): ReadonlyMap<string, readonly number[]> => {
  const found = new Map<string, number[]>();
  moves.forEach(({ letter, to }, i) => {
    const goal = `${letter}${to}`;
    found.set(goal, [...(found.get(goal) ?? []), i]);
  });
  return found;
};

/** The same move is found first by its moment, then by being near. */
const pairMoves = (
  here: readonly Move[],
  there: readonly Move[],
  ofHere: readonly number[],
  ofThere: readonly number[],
): PlanDifference['elsewhere'] => {
  const timeOf = (move: Move): number => toNumber(move.at);
  const taken = new Set<number>();
  const take = (of: number, most: number): number | null => {
    let best: number | null = null;
    let least = most;
    for (const each of ofThere) {
      const away = Math.abs(timeOf(here[of]!) - timeOf(there[each]!));
      if (taken.has(each) || away > least || (best !== null && away === least)) continue;
      [best, least] = [each, away];
    }
    if (best !== null) taken.add(best);
    return best;
  };
  const exact = new Map(ofHere.map((of) => [of, take(of, 0)]));
  return ofHere.flatMap((of) => {
    const at = exact.get(of) ?? take(of, NEAR);
    return at === null ? [] : [{ here: of, there: at }];
  });
};

/** Compares two plans of one part, move by move. */
export const comparePlans = (here: Plan, there: Plan): PlanDifference => {
  const [goalsHere, goalsThere] = [byGoal(here.moves), byGoal(there.moves)];
  const pairs = [...goalsHere].flatMap(([goal, ofHere]) =>
    pairMoves(here.moves, there.moves, ofHere, goalsThere.get(goal) ?? []),
  );
  const [pairedHere, pairedThere] = [
    new Set(pairs.map((pair) => pair.here)),
    new Set(pairs.map((pair) => pair.there)),
  ];
  const others = (moves: readonly Move[], paired: ReadonlySet<number>): number[] =>
    moves.flatMap((_, i) => (paired.has(i) ? [] : [i]));
  return {
    elsewhere: pairs
      .filter((pair) => toNumber(here.moves[pair.here]!.at) !== toNumber(there.moves[pair.there]!.at))
      .sort((a, b) => a.here - b.here),
    onlyHere: others(here.moves, pairedHere),
    onlyThere: others(there.moves, pairedThere),
    initial: LETTERS.filter((letter) => here.initial[letter] !== there.initial[letter]),
  };
};

/** Moves of the other plan that this one has not, or not then: indices into the other's. */
export const movesOfOther = ({ elsewhere, onlyThere }: PlanDifference): readonly number[] =>
  [...elsewhere.map(({ there }) => there), ...onlyThere].sort((a, b) => a - b);
