import type { PlayGraph } from '../../time/play-graph.ts';
import type { PlayedString } from '../problem.ts';

/**
 * Where a lever stands at each moment once the changes printed there are obeyed: 0 down, 1 up.
 *
 * Moments with no printed change between them share a position, which a note among or beside them decides. Where changes
 * are for one time of playing alone, what stands at a moment between them is for one of the passes.
 *
 * @param printed moments at which changes of this lever are printed
 */
export const followLever = (
  { choices }: PlayedString,
  printed: ReadonlySet<number>,
  graph: PlayGraph,
): Uint8Array => {
  const stands = new Uint8Array(graph.moments);
  const seen = new Uint8Array(graph.moments);
  const isDecided = (moment: number): boolean => choices.at[moment]!.length === 1;
  for (let seed = 0; seed < graph.moments; seed += 1) {
    if (seen[seed] === 1) continue;
    if (isDecided(seed)) {
      stands[seed] = choices.at[seed]![0]!;
      continue;
    }
    const stretch = [seed];
    let decided = seed;
    seen[seed] = 1;
    const meet = (moment: number): void => {
      if (isDecided(moment)) decided = decided === seed ? moment : decided;
      else if (seen[moment] === 0) {
        seen[moment] = 1;
        stretch.push(moment);
      }
    };
    for (let i = 0; i < stretch.length; i += 1) {
      const here = stretch[i]!;
      if (!printed.has(here)) for (const { from } of graph.into[here]!) meet(from);
      for (const { to } of graph.outOf[here]!) if (!printed.has(to)) meet(to);
    }
    for (const moment of stretch) stands[moment] = choices.at[decided]![0]!;
  }
  return stands;
};
