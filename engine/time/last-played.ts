import { bisector } from 'd3-array';
import { perObject } from '../memoize.ts';
import type { PlayGraph } from './play-graph.ts';

/**
 * The last of some things before a moment, as the player comes to it: in printed order, but a second ending comes after the
 * bars before the first, and what stands in that was not played this time.
 *
 * @param things in order of moment
 */
export const lastPlayedBefore = <T extends { readonly moment: number }>(
  things: readonly T[],
  moment: number,
  graph: PlayGraph,
  fits: (thing: T) => boolean,
): T | null => {
  const starts = startsOfStretches(graph);
  const seen = new Set<number>();
  let [start, end] = [starts[moment]!, moment];
  for (;;) {
    for (let i = firstFrom(things, end) - 1; i >= 0 && things[i]!.moment >= start; i -= 1) {
      if (fits(things[i]!)) return things[i]!;
    }
    const [back] = graph.into[start]!;
    if (back === undefined || seen.has(start)) return null;
    seen.add(start);
    [start, end] = [starts[back.from]!, back.from + 1];
  }
};

const firstFrom = bisector(({ moment }: { readonly moment: number }) => moment).left;

/** By moment, the first of those from which the print is read straight on to it. */
const startsOfStretches = perObject((graph: PlayGraph): Int32Array => {
  const starts = new Int32Array(graph.moments);
  for (let moment = 1; moment < graph.moments; moment += 1) {
    const isReadOn = graph.into[moment]!.some(({ from }) => from === moment - 1);
    starts[moment] = isReadOn ? starts[moment - 1]! : moment;
  }
  return starts;
});
