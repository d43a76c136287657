import {
  childrenNamed,
  descendantsNamed,
  type Score,
  wordsOf,
  type XmlElement,
} from '../../../engine/index.ts';
import { cut, type Edit } from '../../edit.ts';
import type { LayoutMei } from '../../layout/document/layout-mei.ts';

/** A note of the editor's or composer's, to be printed under the music. */
export interface Footnote {
  /** Index of the bar it stands in. */
  readonly bar: number;
  readonly text: string;
}

/**
 * The footnotes among the words at the harp's staves; not those whose sign of reference stands in another part alone, such
 * as a singer's, which scores print at the lowest staff.
 */
export const findFootnotes = (score: Score, mei: LayoutMei): readonly Footnote[] => {
  const footnotes = footnotesIn(score, mei);
  if (footnotes.length === 0) return [];
  const here = new Set(directionsOf(score, mei).map(({ text }) => text.trim()));
  const inScore = new Set(
    descendantsNamed(score.source.root, 'words', 'dir').map((each) =>
      wordsOf(each, score.source.text).trim(),
    ),
  );
  return footnotes
    .filter(({ text }) => {
      const [sign = ''] = REFERENCE.exec(text) ?? [];
      return sign === '' || here.has(sign) || !inScore.has(sign);
    })
    .map(({ bar, text }) => ({ bar, text }));
};

/** A sign of reference before a footnote. */
const REFERENCE = /^[*†‡]+/u;

/**
 * Keeps words out of the music: footnotes go under the music (`findFootnotes`), and directions too long for
 * one line are broken.
 */
export const longDirectionEdits = (score: Score, mei: LayoutMei): Edit[] => {
  const footnotes = footnotesIn(score, mei).map(({ element }) => element);
  const others = directionsOf(score, mei).filter(({ element }) => !footnotes.includes(element));
  return [
    ...footnotes.map(({ span }) => cut(span)),
    ...others
      .filter(({ text }) => text.length > LONGEST_LINE)
      .flatMap(({ element, text }) => breakLines(element, text.length, mei.text)),
  ];
};

const footnotesIn = (score: Score, mei: LayoutMei): readonly Direction[] =>
  directionsOf(score, mei).filter(({ text }) => isFootnote(text));

interface Direction extends Footnote {
  readonly element: XmlElement;
}

const directionsOf = (score: Score, mei: LayoutMei): readonly Direction[] =>
  score.bars.flatMap((bar) => {
    const measure = mei.measureOf(bar);
    return (measure === undefined ? [] : childrenNamed(measure, 'dir'))
      .filter((element) => !mei.isDropped(element))
      .map((element) => ({ element, bar: bar.index, text: wordsOf(element, mei.text) }));
  });

/** Begins with a sign of reference, or says that it is a note. */
const NOTE_SIGN = /^(?:[*†‡]+\)?\s*\p{L}|N\.?\s?B\.?\s*:?\s)/u;

/** In fewer words a sign of reference belongs to something that stands in the music. */
const FEWEST_WORDS = 4;

const isFootnote = (text: string): boolean => NOTE_SIGN.test(text) && text.split(' ').length >= FEWEST_WORDS;

/** In characters: about a third of a line of music. */
const LONGEST_LINE = 44;

/** What a line may have above its even share, for words of any length. */
const LOOSE = 4;

/** Lines of about equal length; a direction that the file has broken already stays. */
const breakLines = (direction: XmlElement, length: number, text: string): Edit[] => {
  if (descendantsNamed(direction, 'lb').length > 0) return [];
  const most = length / Math.ceil(length / LONGEST_LINE) + LOOSE;
  const { start, end } = direction.inner;
  const edits: Edit[] = [];
  let line = 0;
  for (const piece of text.slice(start, end).matchAll(/<[^>]*>|(\s*)([^\s<]+)/g)) {
    const [, space, word] = piece;
    if (word === undefined) continue;
    const place = start + piece.index;
    if (line > 0 && space !== '' && line + 1 + word.length > most) {
      edits.push({ start: place, end: place + space!.length, put: '<lb/>' });
      line = word.length;
    } else line += word.length + (space === '' ? 0 : 1);
  }
  return edits;
};
