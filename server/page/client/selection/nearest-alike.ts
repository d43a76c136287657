/** Index of the nearest in time of those that are alike, the first of two; null where none is. */
export const nearestAlike = <M>(
  moves: readonly M[],
  isAlike: (move: M) => boolean,
  distanceOf: (move: M) => number,
): number | null =>
  moves.reduce<number | null>((best, move, i) => {
    if (!isAlike(move)) return best;
    return best === null || distanceOf(move) < distanceOf(moves[best]!) ? i : best;
  }, null);
