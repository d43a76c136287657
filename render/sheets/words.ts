import { escapeText } from '../../engine/index.ts';
import { TEXT_FAMILIES, type TextFace } from '../text/fonts.ts';
import { lineAdvance } from '../text/text-signs.ts';
import { unitsOf } from './ink.ts';

/** How words look on a sheet. */
export interface Lettering {
  readonly sizeMm: number;
  readonly face: TextFace;
}

export type Anchor = 'start' | 'middle' | 'end';

/** From the baseline to the top of the capitals of Tinos, in ems. */
export const CAPITAL_EM = 0.66;

/** How wide a line of words is in millimetres, signs such as ♯ included. */
export const widthOfWords = (text: string, { face, sizeMm }: Lettering): number =>
  lineAdvance(text, {
    sizeUnits: sizeMm,
    face,
    music: false,
    letterSpacing: 0,
    anchor: 'start',
    fill: null,
  });

/** A line of words at a baseline, in millimetres; it stays text, so that it can be read and searched in a PDF. */
export const drawWords = (
  text: string,
  x: number,
  baseline: number,
  { face, sizeMm }: Lettering,
  anchor: Anchor = 'start',
): string => {
  if (text.trim() === '') return '';
  const weight = face.startsWith('bold') ? ' font-weight="bold"' : '';
  const slant = face.endsWith('italic') ? ' font-style="italic"' : '';
  return (
    `<text x="${unitsOf(x)}" y="${unitsOf(baseline)}" font-family="${TEXT_FAMILIES}" font-size="${unitsOf(sizeMm)}px"` +
    `${weight}${slant} text-anchor="${anchor}">${escapeText(text)}</text>`
  );
};

/** Words in lines no wider than `widthMm`; a word that is wider is broken where the line ends. */
export const breakWords = (text: string, widthMm: number, lettering: Lettering): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/u).filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOfWords(longer, lettering) <= widthMm) line = longer;
    else {
      if (line !== '') lines.push(line);
      const pieces = breakWord(word, widthMm, lettering);
      lines.push(...pieces.slice(0, -1));
      line = pieces.at(-1)!;
    }
  }
  return line === '' ? lines : [...lines, line];
};

const breakWord = (word: string, widthMm: number, lettering: Lettering): readonly string[] => {
  const pieces: string[] = [];
  let piece = '';
  let width = 0;
  for (const letter of word) {
    const advance = widthOfWords(letter, lettering);
    if (piece !== '' && width + advance > widthMm) {
      pieces.push(piece);
      piece = '';
      width = 0;
    }
    piece += letter;
    width += advance;
  }
  return [...pieces, piece];
};

/** As much of a text as fits on one line, with an ellipsis where that is not all. */
export const shortenWords = (text: string, widthMm: number, lettering: Lettering): string => {
  if (widthOfWords(text, lettering) <= widthMm) return text;
  const [first = ''] = breakWord(text, widthMm - widthOfWords('…', lettering), lettering);
  return `${first.trimEnd()}…`;
};
