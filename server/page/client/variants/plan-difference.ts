/** A move of either harp, as plans are compared. */
export interface TimedMove {
  /** What moves, and into which position: the same in both plans. */
  readonly goal: string;
  readonly quarters: number;
}

/** In which moves two plans of one part differ. Indices into the moves of each. */
export interface MoveDifference {
  /** Made in both, but at another moment. */
  readonly elsewhere: readonly { readonly here: number; readonly there: number }[];
  readonly onlyHere: readonly number[];
  readonly onlyThere: readonly number[];
}

/** Moves of one goal so near in both plans are one move at another moment. In quarters. */
const NEAR = 16;

/** Indices of moves by their goals, in order of time. */
const byGoal = (moves: readonly TimedMove[]): ReadonlyMap<string, readonly number[]> => {
  const found = new Map<string, number[]>();
  moves.forEach(({ goal }, i) => {
    found.set(goal, [...(found.get(goal) ?? []), i]);
  });
  return found;
};

/** The same move is found first by its moment, then by being near. */
const pairMoves = (
  here: readonly TimedMove[],
  there: readonly TimedMove[],
  ofHere: readonly number[],
  ofThere: readonly number[],
): MoveDifference['elsewhere'] => {
  const taken = new Set<number>();
  const take = (of: number, most: number): number | null => {
    let best: number | null = null;
    let least = most;
    for (const each of ofThere) {
      const away = Math.abs(here[of]!.quarters - there[each]!.quarters);
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
export const compareMoves = (here: readonly TimedMove[], there: readonly TimedMove[]): MoveDifference => {
  const [goalsHere, goalsThere] = [byGoal(here), byGoal(there)];
  const pairs = [...goalsHere].flatMap(([goal, ofHere]) =>
    pairMoves(here, there, ofHere, goalsThere.get(goal) ?? []),
  );
  const [pairedHere, pairedThere] = [
    new Set(pairs.map((pair) => pair.here)),
    new Set(pairs.map((pair) => pair.there)),
  ];
  const others = (moves: readonly TimedMove[], paired: ReadonlySet<number>): number[] =>
    moves.flatMap((_, i) => (paired.has(i) ? [] : [i]));
  return {
    elsewhere: pairs
      .filter((pair) => here[pair.here]!.quarters !== there[pair.there]!.quarters)
      .sort((a, b) => a.here - b.here),
    onlyHere: others(here, pairedHere),
    onlyThere: others(there, pairedThere),
  };
};

/** Moves of this plan that the other one has not, or not then: indices into this one's. */
export const movesOfOwn = ({ elsewhere, onlyHere }: MoveDifference): readonly number[] =>
  [...elsewhere.map(({ here }) => here), ...onlyHere].sort((a, b) => a - b);

/** Moves of the other plan that this one has not, or not then: indices into the other's. */
export const movesOfOther = ({ elsewhere, onlyThere }: MoveDifference): readonly number[] =>
  [...elsewhere.map(({ there }) => there), ...onlyThere].sort((a, b) => a - b);
