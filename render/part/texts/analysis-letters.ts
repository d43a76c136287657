import { descendantsNamed, type Score, type Span, type XmlElement } from '../../../engine/index.ts';

/** A letter of an analysis under a note, and the bar (index) it stands in. */
export interface AnalysisLetter {
  readonly span: Span;
  readonly bar: number;
}

/**
 * Single letters in a colour that stand where the words of a song would: an analyst's names of themes, with remarks in
 * brackets. A colour in which other words stand as well is that of a text to be sung.
 */
export const analysisLetters = (score: Score): readonly AnalysisLetter[] => {
  const bars = new Map(score.notes.map(({ span, bar }) => [span.start, bar]));
  const coloured = descendantsNamed(score.source.root, 'note').flatMap((note) => {
    const bar = bars.get(note.span.start);
    if (bar === undefined) return [];
    return descendantsNamed(note, 'lyric', 'verse').flatMap((element) => {
      const colour = colourOf(element);
      return colour === null ? [] : [{ span: element.span, bar, colour, text: lettersOf(element) }];
    });
  });
  const sung = new Set(coloured.filter(({ text }) => !ANALYSIS.test(text)).map(({ colour }) => colour));
  return coloured.filter(({ colour }) => !sung.has(colour));
};

const ANALYSIS = /^(?:\p{L}|\(.*\))$/u;

const BLACK = /^(?:#(?:0{3}|(?:ff)?0{6})|black)$/i;

/** The colour of an element or of the letters in it; null for black. */
const colourOf = (element: XmlElement): string | null =>
  [element, ...descendantsNamed(element, 'text', 'syl', 'rend')]
    .map(({ attributes }) => (attributes.color ?? '').toLowerCase())
    .find((colour) => colour !== '' && !BLACK.test(colour)) ?? null;

const lettersOf = (element: XmlElement): string =>
  descendantsNamed(element, 'text', 'syl')
    .map(({ text }) => text.trim())
    .join(' ');
