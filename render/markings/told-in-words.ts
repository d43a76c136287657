/**
 * Says which places tell their moves in words too: those where one is made that the player meets for the first time. There
 * all are told, since a list with some of them reads as the whole.
 *
 * @param nameOf equal for moves that a player knows once one of them was told
 * @returns asked of each place in turn: all its moves, or none
 */
export const startTelling = <M>(nameOf: (move: M) => string): ((moves: readonly M[]) => readonly M[]) => {
  const met = new Set<string>();
  return (moves) => {
    const names = moves.map(nameOf);
    const isNew = names.some((name) => !met.has(name));
    for (const name of names) met.add(name);
    return isNew ? moves : [];
  };
};
