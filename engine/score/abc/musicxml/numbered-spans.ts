import type { TuneSpan } from '../tune.ts';

/** A span with the number that tells it from others that are open at the same time. */
export interface NumberedSpan extends TuneSpan {
  readonly number: number;
}

/** Spans by the event that they begin and end at. */
export interface SpansByEvent {
  readonly starting: ReadonlyMap<string, readonly NumberedSpan[]>;
  readonly ending: ReadonlyMap<string, readonly NumberedSpan[]>;
}

/** More than so many of a kind cannot be told apart in MusicXML (4.0, `number-level`). */
const MOST_OPEN = 16;

/** Numbers the spans of a tune, each kind by itself: the lowest number that is free while the span is open. */
export const numberSpans = (spans: readonly TuneSpan[], order: readonly string[]): SpansByEvent => {
  const places = new Map(order.map((id, index) => [id, index]));
  const starting = new Map<string, NumberedSpan[]>();
  const ending = new Map<string, NumberedSpan[]>();
  const open = new Map<string, number[]>();
  const placeOf = (id: string): number => places.get(id) ?? 0;
  for (const span of spans.toSorted((a, b) => placeOf(a.from) - placeOf(b.from))) {
    const family = span.kind === 'slur' || span.kind === 'glissando' ? span.kind : 'hairpin';
    const ends = open.get(family) ?? [];
    open.set(family, ends);
    const free = ends.findIndex((end) => end <= placeOf(span.from));
    const at = free < 0 ? ends.length : free;
    ends[at] = placeOf(span.to);
    const numbered = { ...span, number: Math.min(at + 1, MOST_OPEN) };
    starting.set(span.from, [...(starting.get(span.from) ?? []), numbered]);
    ending.set(span.to, [...(ending.get(span.to) ?? []), numbered]);
  }
  return { starting, ending };
};
