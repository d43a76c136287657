import type { DocumentOutline, MeasurePiece } from './document-outline.ts';

/** First and last measure, as indices. */
export interface Line {
  readonly first: number;
  readonly last: number;
}

/** What a line needs round it. */
export interface LineReach {
  /** Measures before and after it that hold the ends of what crosses its own ends. */
  readonly ends: ReadonlySet<number>;
  /** Whether the measures between count, since an end is told by their number. */
  readonly isCounted: boolean;
  /** Whether something in it is set by how the line before it was set. */
  readonly isBound: boolean;
}

/** So many ends on an average line are more than music has: the lines are then better laid out together. */
const MOST_ENDS = 40;

/**
 * What crosses the ends of lines.
 *
 * @returns for each line what it needs; null where so much crosses them that the documents would grow out of proportion
 */
export const reachOfLines = (
  { measures }: DocumentOutline,
  lines: readonly Line[],
): readonly LineReach[] | null => {
  const lineOf = lines.flatMap(({ first, last }, line) => new Array<number>(last - first + 1).fill(line));
  const found = lines.map(() => ({ ends: new Set<number>(), isCounted: false, isBound: false }));
  let left = MOST_ENDS * (lines.length + 1);
  for (const { end, isCounted, isSetOnce, start } of listSpans(measures)) {
    const [from, to] = [lineOf[start]!, lineOf[end]!];
    left -= to - from;
    if (left < 0) return null;
    if (from === to) continue;
    for (let line = from; line <= to; line += 1) {
      if (isCounted) found[line]!.isCounted = true;
      if (line > from) found[line]!.ends.add(start);
      if (line < to) found[line]!.ends.add(end);
      if (line > from && isSetOnce) found[line]!.isBound = true;
    }
  }
  return found;
};

interface Span {
  readonly start: number;
  readonly end: number;
  readonly isCounted: boolean;
  /** The layout sets it with its first line, and goes by that in the others. */
  readonly isSetOnce: boolean;
}

/** Everything that is drawn from one measure to another. */
const listSpans = (measures: readonly MeasurePiece[]): Span[] => {
  const homes = new Map(measures.flatMap(({ ids, index }) => ids.map((id) => [id, index] as const)));
  const spans: Span[] = [];
  const open = new Map<string, number>();
  for (const { chained, index, links } of measures) {
    for (const { barsOn, isSetOnce, to } of links) {
      const places = to.flatMap((id) => homes.get(id) ?? []);
      const end = Math.min(measures.length - 1, Math.max(index + barsOn, ...places));
      spans.push({ start: Math.min(index, ...places), end, isCounted: barsOn > 0, isSetOnce });
    }
    for (const [kind, isOpen] of chained) {
      const since = open.get(kind);
      if (since !== undefined) spans.push({ start: since, end: index, isCounted: false, isSetOnce: false });
      if (isOpen) open.set(kind, index);
      else open.delete(kind);
    }
  }
  return spans.filter(({ end, start }) => end > start);
};
