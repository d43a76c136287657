import { bisectLeft } from 'd3-array';
import type { Moments } from '../time/moments.ts';
import { type NeedSpan, spanOf } from './need-span.ts';
import type { Need } from './needs.ts';

/** A need with the moments at which it holds, and how long any need listed so far holds. */
interface ListedNeeds<N> {
  readonly needs: N[];
  readonly spans: NeedSpan[];
  readonly lastSoFar: number[];
}

/**
 * Finds rivals: the first need listed that asks for another position at a moment at which a need holds.
 *
 * What counts are the moments, as for the feet and hands: a trill that ends where the next note begins is over by then,
 * and grace notes come before the note they lead to. Needs are listed nearly in order of onset, so that the search
 * starts where the first of them holds long enough.
 *
 * @param placeOf what needs share that are served by one pedal, or by one lever
 */
export const createRivalSearch = <N extends Need>(
  needs: readonly N[],
  moments: Moments,
  placeOf: (need: Need) => string | number = ({ letter }) => letter,
): ((need: N) => N | undefined) => {
  const byPlace = new Map<string | number, ListedNeeds<N>>();
  for (const need of needs) {
    const place = placeOf(need);
    const known = byPlace.get(place) ?? { needs: [], spans: [], lastSoFar: [] };
    byPlace.set(place, known);
    const span = spanOf(need, moments);
    known.needs.push(need);
    known.spans.push(span);
    known.lastSoFar.push(Math.max(known.lastSoFar.at(-1) ?? 0, span.last));
  }
  return (need) => {
    const listed = byPlace.get(placeOf(need));
    if (listed === undefined) return undefined;
    const { first, last } = spanOf(need, moments);
    for (let i = bisectLeft(listed.lastSoFar, first); i < listed.needs.length; i += 1) {
      const span = listed.spans[i]!;
      const other = listed.needs[i]!;
      if (span.first <= last && span.last >= first && other.position !== need.position) return other;
    }
    return undefined;
  };
};
