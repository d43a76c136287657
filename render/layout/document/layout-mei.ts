import type { Bar, Score, Span, XmlElement } from '../../../engine/index.ts';

/** The MEI that is laid out, and how the score's things are found in it. */
export interface LayoutMei {
  readonly text: string;
  readonly root: XmlElement;
  /** `n` of the harp's staves from the top. */
  readonly staves: readonly string[];
  readonly measureOf: (bar: Bar) => XmlElement | undefined;
  /** Where the start tag of a note, rest or chord stands; undefined for one that the document does not hold. */
  readonly tagOf: (event: ScoreEvent) => number | undefined;
  /** Whether an element beside the staves is left out of the page. */
  readonly isDropped: (event: XmlElement) => boolean;
}

/** A note or rest of the score. */
export interface ScoreEvent {
  readonly id: string;
  readonly span: Span;
}

/**
 * The bars, notes and rests that have an element of their own in an MEI source. A note that a repeat sign stands for
 * has none: its element belongs to the note that was written out, or is no note at all.
 */
export const elementOwners = (score: Score): ScoreEvent[] => {
  const { text } = score.source;
  const taken = new Set<number>();
  return [...score.bars, ...score.notes, ...score.rests].filter(({ span, id }) => {
    if (text[span.start] !== '<' || id.includes('-r') || taken.has(span.start)) return false;
    taken.add(span.start);
    return true;
  });
};
