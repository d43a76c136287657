import { group } from '../group.ts';
import { memoize, perObject } from '../memoize.ts';
import { areSameTimelines, type PartTimeline } from '../time/part-timeline.ts';
import type { PlayGraph } from '../time/play-graph.ts';
import { soundOf } from './need-timing.ts';
import type { Need } from './needs.ts';
import type { PlacedNeed } from './placed-needs.ts';

/**
 * The needs whose strings are heard to bend where their pedal moves: those whose notated sound lasts until then, and those
 * that were plucked so shortly before that no hand has stilled them. Where passes differ, those of any pass.
 *
 * @param needs of the pedal's letter, in order of moment
 * @param freshSeconds how much of the time in which a hand cannot still a string has to be left for the bend to be heard
 */
export const bentBy = (
  moment: number,
  needs: readonly PlacedNeed[],
  timeline: PartTimeline,
  freshSeconds: number,
): readonly Need[] => {
  const { byMoment, longest } = soundsOf(needs)(timeline);
  const since = secondsSince(moment, longest, timeline.graph);
  return [...since.keys()]
    .sort((a, b) => a - b)
    .flatMap((from) =>
      (byMoment.get(from) ?? [])
        .filter(({ notated, fresh }) => {
          const gone = since.get(from)!;
          return notated - gone > LEAST_HEARD || fresh - gone >= freshSeconds;
        })
        .map(({ need }) => need),
    );
};

/** How long each need sounds, by the moment of its pluck, and the longest of them. */
interface Sounds {
  readonly byMoment: ReadonlyMap<
    number,
    readonly { readonly need: Need; readonly notated: number; readonly fresh: number }[]
  >;
  readonly longest: number;
}

/** All moves of a letter ask for the same sounds. */
const soundsOf = perObject((needs: readonly PlacedNeed[]) =>
  memoize((timeline: PartTimeline): Sounds => {
    const sounds = needs.map((placed) => ({ ...placed, ...soundOf(placed, timeline) }));
    const longest = sounds.reduce((most, { notated, fresh }) => Math.max(most, notated, fresh), 0);
    return { byMoment: group(sounds, (each) => each.moment), longest };
  }, areSameTimelines),
);

/** What is left of a sound by inexact sums alone, in seconds. */
const LEAST_HEARD = 1e-6;

/** By moment, the shortest time that it is played before another, as far back as a sound can last. */
const secondsSince = (moment: number, longest: number, { into }: PlayGraph): ReadonlyMap<number, number> => {
  const since = new Map<number, number>();
  const open = [{ to: moment, gone: 0 }];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    for (const { from, seconds } of into[next.to]!) {
      const gone = next.gone + seconds;
      if (gone >= longest || gone >= (since.get(from) ?? Number.POSITIVE_INFINITY)) continue;
      since.set(from, gone);
      open.push({ to: from, gone });
    }
  }
  return since;
};
