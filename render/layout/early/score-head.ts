import { childrenNamed, compare, type Score, type Span, type XmlElement } from '../../../engine/index.ts';

/** The first bars of a score, as a score of their own. */
export interface ScoreHead {
  readonly score: Score;
  /** Where the rest stands in the source, as far as it is not read anyway: of parts one after the other nothing is. */
  readonly leftOut: readonly Span[];
}

/**
 * The score as if it ended after some bars. Everything keeps its place and its id; what runs over the end is left out.
 *
 * @param bars fewer than the score has
 */
export const headOf = (score: Score, bars: number): ScoreHead => {
  const { onset: end, span } = score.bars[bars]!;
  const inHead = ({ bar }: { readonly bar: number }): boolean => bar < bars;
  const leftOut: Span[] = [];
  const root =
    score.source.format === 'musicxml-partwise'
      ? firstOfParts(score.source.root, bars)
      : upTo(score.source.root, span.start, leftOut);
  return {
    leftOut,
    score: {
      ...score,
      source: { ...score.source, root },
      bars: score.bars.slice(0, bars),
      notes: score.notes.filter(inHead),
      rests: score.rests.filter(inHead),
      sweeps: score.sweeps.filter((sweep) => compare(sweep.end, end) < 0),
      phrases: score.phrases.filter((phrase) => compare(phrase.end, end) <= 0),
      damps: score.damps.filter(({ at }) => compare(at, end) < 0),
      tempo: score.tempo.filter(({ at }) => compare(at, end) < 0),
      slowed: score.slowed.filter(inHead),
      landmarks: score.landmarks.filter(inHead),
      texts: score.texts.filter(inHead),
      movements: score.movements.filter((bar) => bar < bars),
      sharing: score.sharing.filter(inHead),
      markings: score.markings.filter(inHead),
      unreadWords: score.unreadWords.filter(inHead),
      leverWords: score.leverWords.filter(inHead),
      playOrder: score.playOrder.filter((bar) => bar < bars),
    },
  };
};

/** A document of parts with the first bars of each. */
const firstOfParts = (root: XmlElement, bars: number): XmlElement =>
  withChildren(
    root,
    root.children.map((part) =>
      part.name === 'part' ? withChildren(part, childrenNamed(part, 'measure').slice(0, bars)) : part,
    ),
  );

/** Elements work out their attributes when they are asked, so that these are not copied as other things are. */
const withChildren = (
  { attributes, inner, name, span, text }: XmlElement,
  children: readonly XmlElement[],
): XmlElement => ({ attributes, inner, name, span, text, children });

/** An element without what begins at a place or behind it, wherever that place lies within it. */
const upTo = (element: XmlElement, place: number, leftOut: Span[]): XmlElement => {
  const { children, inner } = element;
  if (inner.start > place || inner.end <= place) return element;
  const kept = children.filter(({ span }) => span.start < place);
  leftOut.push(...children.slice(kept.length).map(({ span }) => span));
  return withChildren(
    element,
    kept.map((child) => upTo(child, place, leftOut)),
  );
};
