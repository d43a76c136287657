import type { Losses } from '../losses.ts';
import type { ParsedEvent } from '../parsed-tune.ts';
import type { TuneSpan } from '../tune.ts';
import { decorationOf } from './signs.ts';

interface End {
  readonly id: string;
  readonly bar: number;
}

interface Start extends End {
  readonly kind: TuneSpan['kind'];
  readonly startChar: number | undefined;
}

/** Slurs, hairpins and glissandi of one voice, from where they begin to where they end. */
export class OpenSpans {
  readonly #open = new Map<string, Start>();
  readonly #spans: TuneSpan[] = [];
  readonly #losses: Losses;

  constructor(losses: Losses) {
    this.#losses = losses;
  }

  /** What begins and ends at an event; of a length that is written as several notes, at the first and the last. */
  read(event: ParsedEvent, end: End, { isFirst, isLast }: { isFirst: boolean; isLast: boolean }): void {
    const all = [event, ...(event.pitches ?? [])];
    const decorations = (event.decoration ?? []).map(decorationOf);
    if (isLast) {
      for (const label of all.flatMap(({ endSlur }) => endSlur ?? [])) this.#close(`slur ${label}`, end);
      for (const each of decorations) if (each.kind === 'span-end') this.#close(each.span, end);
    }
    if (!isFirst) return;
    const { startChar } = event;
    for (const { label } of all.flatMap(({ startSlur }) => startSlur ?? []))
      this.#open.set(`slur ${label}`, { ...end, kind: 'slur', startChar });
    for (const each of decorations)
      if (each.kind === 'span-start') this.#open.set(each.span, { ...end, kind: each.span, startChar });
  }

  #close(key: string, end: End): void {
    const start = this.#open.get(key);
    if (start === undefined || start.id === end.id) return;
    this.#open.delete(key);
    this.#spans.push({ kind: start.kind, from: start.id, to: end.id, bar: start.bar });
  }

  /** Those that ended; one without an end is told. */
  finish(): readonly TuneSpan[] {
    for (const { kind, startChar } of this.#open.values())
      this.#losses.at(`A ${kind} without an end is left out`, startChar);
    return this.#spans;
  }
}
