import { descendantsNamed, escapeText, wordsOf, type XmlElement } from '../../../engine/index.ts';
import type { Edit } from '../../edit.ts';
import { styledFigure } from './metronome-figures.ts';

/** Edits that set right what the conversion from MusicXML does to words. */
export const convertedWordEdits = (text: string, root: XmlElement): Edit[] => [
  ...spaceEdits(text, root),
  ...descendantsNamed(root, 'dynam').flatMap((dynam) => bracketEdits(text, dynam)),
  ...descendantsNamed(root, 'tempo').flatMap((tempo) => [
    ...figureEdits(text, tempo),
    ...gapEdits(text, tempo),
  ]),
];

/** A space before the end of a styled stretch of words is lost when MEI is loaded: it is made one that stays. */
const spaceEdits = (text: string, root: XmlElement): Edit[] =>
  descendantsNamed(root, 'rend')
    .filter(({ inner }) => inner.end > inner.start && text[inner.end - 1] === ' ')
    .map(({ inner }) => ({ start: inner.end - 1, end: inner.end, put: '\u00a0' }));

/** A dynamic in brackets, which the conversion sets apart from it by spaces. */
const BRACKETED = /([[(]) ?([a-z]+) ?([\])])/g;

/** Brackets close round a dynamic, upright: in a stretch of their own, or the layout no longer knows the sign. */
const bracketEdits = (text: string, { children, inner }: XmlElement): Edit[] => {
  if (children.length > 0) return [];
  const put = text
    .slice(inner.start, inner.end)
    .replace(BRACKETED, (_, open, sign, close) => `${upright(open)}${sign}${upright(close)}`);
  return put === text.slice(inner.start, inner.end) ? [] : [{ ...inner, put }];
};

const upright = (bracket: string): string => `<rend fontstyle="normal">${escapeText(bracket)}</rend>`;

/** A metronome mark in plain type, its note of the words' own size, as in words that the score has over its first staff. */
const figureEdits = (text: string, tempo: XmlElement): Edit[] => {
  const { children, inner } = tempo;
  if (children.length === 0 || !children.every(({ attributes }) => attributes['glyph.auth'] === 'smufl'))
    return [];
  const put = styledFigure(wordsOf(tempo, text), '');
  return put === null ? [] : [{ ...inner, put }];
};

/** Nothing, a space or an opening bracket, before which no space is wanted. */
const NEEDS_NO_GAP = /(?:^|[\s\u00a0([]|&#(?:160|xA0);)$/i;

/** Words and the metronome mark of one direction come out of the conversion without a space between. */
const gapEdits = (text: string, { children, inner }: XmlElement): Edit[] => {
  const mark = children.find(({ attributes }) => attributes['glyph.auth'] === 'smufl');
  if (mark === undefined || mark === children[0]) return [];
  // Line breaks between elements are no space.
  const before = text
    .slice(inner.start, mark.span.start)
    .replace(/<[^>]*>/g, '')
    .replace(/\s*\n\s*$/, '');
  return NEEDS_NO_GAP.test(before) ? [] : [{ start: mark.span.start, end: mark.span.start, put: '\u00a0' }];
};
