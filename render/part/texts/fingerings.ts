import { descendantsNamed, type Score, type Span, type XmlElement } from '../../../engine/index.ts';

/** A sign of fingering that a harpist has no use for, and the bar (index) it stands in. */
export interface LeftFingering {
  readonly span: Span;
  readonly bar: number;
}

/**
 * The harp's fingerings with a fifth finger: harpists play with four, so the file has them from a keyboard (common
 * practice, no source).
 */
export const fifthFingers = (score: Score): readonly LeftFingering[] =>
  (score.source.format === 'mei' ? besideStaves(score) : insideNotes(score)).filter(({ text }) =>
    /(?:^|\D)5(?:\D|$)/.test(text),
  );

interface Fingering extends LeftFingering {
  readonly text: string;
}

const fingering = (element: XmlElement, bar: number, source: string): Fingering => ({
  span: element.span,
  bar,
  text: source.slice(element.inner.start, element.inner.end).replace(/<[^>]*>/g, ' '),
});

const insideNotes = ({ source, notes }: Score): readonly Fingering[] => {
  const bars = new Map(notes.map(({ span, bar }) => [span.start, bar]));
  return descendantsNamed(source.root, 'note').flatMap((note) => {
    const bar = bars.get(note.span.start);
    if (bar === undefined) return [];
    return descendantsNamed(note, 'fingering').map((each) => fingering(each, bar, source.text));
  });
};

const besideStaves = ({ source, notes, bars, harp }: Score): readonly Fingering[] => {
  const ids = new Set(notes.map(({ id }) => id));
  const measures = new Map(bars.map(({ span, index }) => [span.start, index]));
  const isHarps = ({ attributes: { staff, startid } }: XmlElement): boolean =>
    ids.has((startid ?? '').replace(/^#/, '')) ||
    (staff ?? '').split(/\s+/).some((n) => harp.meiStaves.includes(n));
  return descendantsNamed(source.root, 'measure').flatMap((measure) => {
    const bar = measures.get(measure.span.start);
    if (bar === undefined) return [];
    const groups = descendantsNamed(measure, 'fing', 'fingGrp').filter(isHarps);
    const signs = new Set(
      groups.flatMap((each) => (each.name === 'fing' ? [each] : descendantsNamed(each, 'fing'))),
    );
    return [...signs].map((each) => fingering(each, bar, source.text));
  });
};
