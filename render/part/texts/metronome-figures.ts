import { escapeText } from '../../../engine/index.ts';

/** A metronome mark with the brackets around it. */
const FIGURE = /[([]?[\uECA0-\uECBF][^\p{L}]*/u;

/** A space at the end of a styled stretch is lost in layout. */
const held = (text: string): string => escapeText(text).replace(/^ | $/g, '\u00a0');

const stretch = (text: string, style: string): string => {
  if (text === '') return '';
  return style === '' ? held(text) : `<rend ${style}>${held(text)}</rend>`;
};

/**
 * Words with a metronome mark as MEI: the words in their style, the mark in plain type; null where there is none.
 *
 * @param style attributes of a `rend`; none where empty
 */
export const styledFigure = (text: string, style: string): string | null => {
  const figure = FIGURE.exec(text);
  if (figure === null) return null;
  return [
    stretch(text.slice(0, figure.index), style),
    stretch(figure[0], 'fontweight="normal"'),
    stretch(text.slice(figure.index + figure[0].length), style),
  ].join('');
};
