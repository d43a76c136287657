import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import { firstNeedFrom } from '../../sounding/placed-needs.ts';
import type { Moment } from '../../time/moments.ts';
import type { PlayGraph } from '../../time/play-graph.ts';
import type { PedalContext } from '../course/foot.ts';
import type { PedalProblem } from '../pedal-problem.ts';

/** Changes to notes are tried with this much music on either side. */
export const MOMENTS_AROUND = 16;

/** Moments of a part, the last not included. */
export interface Span {
  readonly from: number;
  readonly until: number;
  /** Whether nothing comes before it, or after it: there the pedals may stand anywhere. */
  readonly freeStart: boolean;
  readonly freeEnd: boolean;
}

/** Some moments of a part as a part of their own, read straight through. */
export interface Passage {
  readonly needs: PedalProblem['needs'];
  readonly stage: PedalContext;
}

/**
 * The music around some moments as far as it is read straight through: what changes within it nothing outside notices,
 * as long as the pedals stand at either end as before. Null where the moments themselves come to such an end.
 */
export const spanAround = (graph: PlayGraph, first: number, last: number): Span | null => {
  for (let at = first + 1; at <= last; at += 1) if (!isStraight(graph, at)) return null;
  let from = first;
  while (from > 0 && from > first - MOMENTS_AROUND && isStraight(graph, from)) from -= 1;
  let until = last + 1;
  while (until < graph.moments && until < last + MOMENTS_AROUND && isStraight(graph, until)) until += 1;
  const freeStart = from === 0 && graph.into[0]!.length === 0;
  const freeEnd = until === graph.moments && graph.outOf[until - 1]!.length === 0;
  const isInside = (freeStart || from < first) && (freeEnd || until > last + 1);
  return isInside ? { from, until, freeStart, freeEnd } : null;
};

/** The moments of a place with jumps, as if they were read straight through. */
export const spanAcross = (moments: number, moment: number): Span => ({
  from: Math.max(0, moment - MOMENTS_AROUND),
  until: Math.min(moments, moment + MOMENTS_AROUND),
  freeStart: true,
  freeEnd: true,
});

const isStraight = (graph: PlayGraph, to: number): boolean =>
  graph.into[to]!.length === 1 && graph.into[to]![0]!.from === to - 1 && graph.outOf[to - 1]!.length === 1;

/** @param ends where pedals have to stand at moments of the passage, counted from its first, whatever the part says */
export const cutPassage = (
  { needs, context }: Pick<PedalProblem, 'needs' | 'context'>,
  { from, until }: Pick<Span, 'from' | 'until'>,
  ends: (letter: Letter) => ReadonlyMap<number, Position>,
): Passage => {
  const all = context.moments.all.slice(from, until);
  return {
    needs: new Map(
      [...needs].map(([letter, placed]) => [
        letter,
        placed
          .slice(firstNeedFrom(placed, from), firstNeedFrom(placed, from + all.length))
          .map((each) => ({ need: each.need, moment: each.moment - from })),
      ]),
    ),
    stage: {
      ...context,
      moments: { ...context.moments, all },
      graph: straightThrough(all),
      pinned: (letter) => {
        const pinned = context.pinned(letter);
        const inside =
          pinned.size === 0
            ? []
            : all.flatMap((_, i) => (pinned.has(i + from) ? [[i, pinned.get(i + from)!] as const] : []));
        return new Map([...inside, ...ends(letter)]);
      },
      forbidden: new Set([...context.forbidden].map((moment) => moment - from)),
      newSettings: [],
    },
  };
};

/** The moments one after the other. */
const straightThrough = (all: readonly Moment[]): PlayGraph => {
  const edges = all.map((each, i) => ({
    from: i - 1,
    to: i,
    seconds: i === 0 ? 0 : Math.max(0, each.seconds - all[i - 1]!.seconds),
  }));
  return {
    moments: all.length,
    start: 0,
    into: edges.map((edge, i) => (i === 0 ? [] : [edge])),
    outOf: edges.map((_, i) => (i + 1 < edges.length ? [edges[i + 1]!] : [])),
    played: all.map((_, i) => i),
  };
};
