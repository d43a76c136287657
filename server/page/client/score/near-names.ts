/** Names that stand side by side under the music, in px: the middle of them, and how far down. */
export interface PlacedNames {
  readonly names: readonly string[];
  readonly left: number;
  readonly top: number;
}

const widen = (all: readonly PlacedNames[], width: number): PlacedNames => {
  const [first, last] = [all[0]!, all.at(-1)!];
  const edges = [
    first.left - (first.names.length * width) / 2,
    last.left + (last.names.length * width) / 2,
  ] as const;
  return { names: all.flatMap(({ names }) => names), left: (edges[0] + edges[1]) / 2, top: first.top };
};

/**
 * Names that would cover each other, as on a small page, together in one frame.
 *
 * @param placed from left to right on each line
 * @param width that a name takes
 */
export const joinNear = (placed: readonly PlacedNames[], width: number): readonly PlacedNames[] => {
  const joined: PlacedNames[] = [];
  for (const each of placed) {
    let own = each;
    for (;;) {
      const before = joined.at(-1);
      const room = ((before?.names.length ?? 0) + own.names.length) * (width / 2);
      if (before === undefined || before.top !== own.top || own.left - before.left >= room) break;
      joined.pop();
      own = widen([before, own], width);
    }
    joined.push(own);
  }
  return joined;
};
