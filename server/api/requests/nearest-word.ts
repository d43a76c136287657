/** Letters to change, add or remove to make one word of the other, by rows of the usual table. */
const countEdits = (from: string, to: string): number => {
  let row = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (const [line, letter] of [...from].entries()) {
    const next = [line + 1];
    for (const [column, other] of [...to].entries()) {
      next.push(Math.min(row[column + 1]! + 1, next[column]! + 1, row[column]! + (letter === other ? 0 : 1)));
    }
    row = next;
  }
  return row[to.length]!;
};

/** Known names, those first of which the fewest letters differ from a word. */
export const rankNearest = (
  word: string,
  known: readonly string[],
): readonly { readonly name: string; readonly edits: number }[] =>
  known
    .map((name) => ({ name, edits: countEdits(word.toLowerCase(), name.toLowerCase()) }))
    .sort((a, b) => a.edits - b.edits);

/** Fewer letters begin too many names. */
const SHORTEST_BEGINNING = 3;

/**
 * The known name that a misspelt or shortened word most likely stands for; null where none is close (more than half of
 * its letters would change, and none begins with it). Known names are plain ASCII.
 *
 * @example findNearest('prat', ['part', 'page']) // 'part'
 */
export const findNearest = (word: string, known: readonly string[]): string | null => {
  const begun = word.length < SHORTEST_BEGINNING ? [] : known.filter((name) => name.startsWith(word));
  if (begun.length > 0) return begun.reduce((a, b) => (b.length < a.length ? b : a));
  // Of a word more than twice as long as a name, more than half would change.
  const near = known.filter((name) => word.length <= 2 * name.length);
  const [best] = rankNearest(word, near);
  return best !== undefined && best.edits * 2 <= Math.max(best.name.length, word.length) ? best.name : null;
};
