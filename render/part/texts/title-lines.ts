import { textWidth } from '../../text/glyphs.ts';

/** The layout sets lines of text close: a small empty one keeps a line off the descenders of the one above. */
export const LINE_GAP = '<lb/><rend fontsize="40%">\u00a0</rend><lb/>';

/** What a heading has room for. */
export interface TitleSpace {
  readonly widthMm: number;
  /** Size of its letters. */
  readonly emMm: number;
}

const widthIn = (text: string, { emMm }: TitleSpace): number =>
  textWidth(text, { style: 'regular', sizeUnits: emMm });

/** A heading of more lines than this is cut: the music has to find its place below it. */
const MOST_LINES = 4;

/** A title in lines of about equal length, as few as it needs. */
export const breakTitle = (title: string, room: TitleSpace): readonly string[] => {
  const words = wordsOf(title, room);
  const fewest = Math.ceil(widthIn(title, room) / room.widthMm);
  if (fewest <= 1) return [title];
  const aims = [widthIn(title, room) / fewest, room.widthMm];
  const broken = aims.map((aim) => fillLines(words, aim, room));
  const lines = broken.find((each) => each.length <= fewest) ?? broken.at(-1)!;
  return lines.length <= MOST_LINES
    ? lines
    : [...lines.slice(0, MOST_LINES - 1), `${lines[MOST_LINES - 1]} …`];
};

/** Words in lines as full as they go. */
export const breakLines = (text: string, room: TitleSpace): readonly string[] =>
  fillLines(wordsOf(text, room), room.widthMm, room);

/** The words of a text; one that is wider than the line, such as an address, in pieces. */
const wordsOf = (text: string, room: TitleSpace): readonly string[] =>
  text
    .split(/\s+/u)
    .filter((word) => word !== '')
    .flatMap((word) => piecesOf(word, room));

const piecesOf = (word: string, room: TitleSpace): readonly string[] => {
  if (widthIn(word, room) <= room.widthMm) return [word];
  const pieces: string[] = [];
  let piece = '';
  for (const letter of word) {
    if (piece !== '' && widthIn(piece + letter, room) > room.widthMm) {
      pieces.push(piece);
      piece = '';
    }
    piece += letter;
  }
  return [...pieces, piece];
};

/** Each line ends with the first word that brings it to its aim, or before the one that does not fit. */
const fillLines = (words: readonly string[], aim: number, room: TitleSpace): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of words) {
    const longer = line === '' ? word : `${line} ${word}`;
    let width = widthIn(longer, room);
    if (line !== '' && width > room.widthMm) {
      lines.push(line);
      line = word;
      width = widthIn(word, room);
    } else line = longer;
    if (width < aim) continue;
    lines.push(line);
    line = '';
  }
  return line === '' ? lines : [...lines, line];
};

/** As much of a title as fits on one line, with an ellipsis where that is not all. */
export const shortenTitle = (title: string, room: TitleSpace): string => {
  if (widthIn(title, room) <= room.widthMm) return title;
  let words = title.split(/\s+/u);
  while (words.length > 1 && widthIn(`${words.join(' ')} …`, room) > room.widthMm) words = words.slice(0, -1);
  return `${words.join(' ')} …`;
};
