import type { TuneEvent, Tuplet } from '../tune.ts';

/** Events of a layer as beams and tuplets hold them together. */
export type EventGroup =
  | { readonly kind: 'event'; readonly event: TuneEvent }
  | { readonly kind: 'beam'; readonly members: readonly EventGroup[] }
  | { readonly kind: 'tuplet'; readonly tuplet: Tuplet; readonly members: readonly EventGroup[] };

/** Groups the events of a bar: of a beam and a tuplet that overlap, the longer holds the other's share in it. */
export const groupEvents = (events: readonly TuneEvent[]): readonly EventGroup[] => group(events, true, true);

const group = (events: readonly TuneEvent[], beams: boolean, tuplets: boolean): readonly EventGroup[] => {
  const groups: EventGroup[] = [];
  for (let index = 0; index < events.length; ) {
    const event = events[index]!;
    const beam = beams && event.beam !== null ? runOf(events, index, (each) => each.beam === event.beam) : 0;
    const tuplet =
      tuplets && event.tuplet !== null ? runOf(events, index, (each) => each.tuplet === event.tuplet) : 0;
    if (tuplet > 0 && tuplet >= beam) {
      const members = events.slice(index, index + tuplet);
      groups.push({ kind: 'tuplet', tuplet: event.tuplet!, members: group(members, beams, false) });
    } else if (beam > 1)
      groups.push({ kind: 'beam', members: group(events.slice(index, index + beam), false, tuplets) });
    else groups.push({ kind: 'event', event });
    index += Math.max(1, tuplet, beam);
  }
  return groups;
};

const runOf = (
  events: readonly TuneEvent[],
  start: number,
  belongs: (event: TuneEvent) => boolean,
): number => {
  let end = start;
  while (end < events.length && belongs(events[end]!)) end += 1;
  return end - start;
};
