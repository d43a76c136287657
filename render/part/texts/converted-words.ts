import { descendantsNamed, wordsOf, type XmlElement } from '../../../engine/index.ts';
import { type Edit, escapeText } from '../../edit.ts';
import { styledFigure } from './metronome-figures.ts';

/** Edits that set right what the conversion from MusicXML does to words. */
export const convertedWordEdits = (text: string, root: XmlElement): Edit[] => [
  ...spaceEdits(text, root),
  ...descendantsNamed(root, 'dynam').flatMap((dynam) => bracketEdits(text, dynam)),
  ...descendantsNamed(root, 'tempo').flatMap((tempo) => figureEdits(text, tempo)),
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
