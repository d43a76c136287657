import { glyphPath, hasGlyph, hasTextGlyph, textWidth } from './glyphs.ts';
import type { Glyph } from './outline.ts';
import type { TextRun, TextStyle } from './text-runs.ts';

/** Part of a run: words in the text font, or one sign of the music font. `x` and `y` place its origin. */
export type PlacedPiece = { readonly run: TextRun; readonly x: number; readonly y: number } & PieceKind;

type PieceKind =
  | { readonly kind: 'words'; readonly words: string }
  | {
      readonly kind: 'sign';
      readonly glyph: Glyph;
      readonly sizeUnits: number;
      /** The character of Unicode that stands for it in a text that is searched or read aloud; null for none. */
      readonly letter: string | null;
      /** How far its origin lies below the baseline of the words. */
      readonly drop: number;
    };

type Piece = PieceKind & {
  readonly run: TextRun;
  readonly advance: number;
  /** From the pen to the piece's origin. */
  readonly offset: { readonly x: number; readonly y: number };
};

/**
 * A glyph of the music font in a line of text. Sizes are parts of the text's em, chosen by eye against Tinos:
 * accidentals about as tall as its capitals, notes a little taller.
 */
interface Sign {
  readonly codepoint: number;
  readonly size: number;
  /** Centred on the capitals' middle, standing on the baseline, close behind such a note, or as the font has it. */
  readonly seat: 'centred' | 'standing' | 'behind' | 'own';
}

const accidental = (codepoint: number): Sign => ({ codepoint, size: 1.15, seat: 'centred' });
const note = (codepoint: number): Sign => ({ codepoint, size: 1, seat: 'standing' });

/** SMuFL's dot of a metronome mark. */
const DOT = 0xecb7;

/**
 * Unicode's Miscellaneous Symbols and Musical Symbols blocks, SMuFL's standard accidentals (U+E260 to U+E264) and its
 * metronome marks (U+ECA0 to U+ECB7).
 */
const WORD_SIGNS: ReadonlyMap<number, Sign> = new Map([
  [0x2669, note(0xeca5)],
  [0x266a, note(0xeca7)],
  [0x266b, note(0x266b)],
  [0x266c, note(0x266c)],
  [0x1d15d, note(0xeca2)],
  [0x1d15e, note(0xeca3)],
  [0x1d161, note(0xeca9)],
  [0x266d, accidental(0xe260)],
  [0x266e, accidental(0xe261)],
  [0x266f, accidental(0xe262)],
  [0x1d12a, accidental(0xe263)],
  [0x1d12b, accidental(0xe264)],
  ...[0xe260, 0xe261, 0xe262, 0xe263, 0xe264].map((each) => [each, accidental(each)] as const),
  ...Array.from({ length: DOT - 0xeca0 }, (_, i) => [0xeca0 + i, note(0xeca0 + i)] as const),
  [DOT, { codepoint: DOT, size: 1, seat: 'behind' }],
]);

/** SMuFL's standard accidentals as Unicode has them. */
const LETTERS: ReadonlyMap<number, string> = new Map([
  [0xe260, '♭'],
  [0xe261, '♮'],
  [0xe262, '♯'],
  [0xe263, '\u{1d12a}'],
  [0xe264, '\u{1d12b}'],
]);

/** Half the height of Tinos' capitals (1341 of 2048 units, read from the font), in ems. */
const HALF_CAPITAL = 0.327;

/** Room at either side of a sign among words, in ems: Bravura's own accidentals and notes have none. */
const SIDE_ROOM: Readonly<Record<Sign['seat'], number>> = {
  own: 0,
  centred: 0.05,
  standing: 0.1,
  behind: 0,
};

/** Characters that no shipped font draws; formatting characters need no drawing. */
export const missingCharacters = ({ text, style }: TextRun): readonly string[] =>
  [...text].filter(
    (each) =>
      signOf(each, style) === null && !hasTextGlyph(each, style.face) && !/\p{Cf}|\p{Mn}|\s/u.test(each),
  );

/** A private character that is in none of our fonts: a box in its place would say nothing. */
const isUnknownSign = (character: string, style: TextStyle): boolean =>
  /\p{Co}/u.test(character) && signOf(character, style) === null && !hasTextGlyph(character, style.face);

/** Characters that the text font draws. */
export const shownCharacters = ({ text, style }: TextRun): readonly string[] =>
  [...text].filter((each) => signOf(each, style) === null && hasTextGlyph(each, style.face));

/** Whether a run holds a character that is not drawn as a letter: a sign of the music font, or one that is left out. */
export const holdsSign = ({ text, style }: TextRun): boolean =>
  [...text].some((each) => signOf(each, style) !== null || isUnknownSign(each, style));

/**
 * Places every piece of a text element's runs: lines start where the source says, are aligned as a whole, and each
 * piece follows the last by its width.
 */
export const placePieces = (runs: readonly TextRun[]): readonly PlacedPiece[] =>
  linesOf(runs).flatMap((line) => placeLine(line));

/** How far a line of text of one style reaches, signs of the music font included, in the unit of its size. */
export const lineAdvance = (text: string, style: TextStyle): number =>
  piecesOf({ text, style, source: NOWHERE, start: null, shift: { dx: 0, dy: 0 } }).reduce(
    (sum, { advance }) => sum + advance,
    0,
  );

const NOWHERE = { start: 0, end: 0 } as const;

const linesOf = (runs: readonly TextRun[]): readonly (readonly TextRun[])[] => {
  const lines: TextRun[][] = [];
  for (const run of runs) {
    if (run.start !== null || lines.length === 0) lines.push([run]);
    else lines.at(-1)!.push(run);
  }
  return lines;
};

const placeLine = (line: readonly TextRun[]): readonly PlacedPiece[] => {
  const first = line[0]!;
  let penX = 0;
  let penY = first.start?.y ?? 0;
  const placed: PlacedPiece[] = [];
  for (const run of line) {
    penX += run.shift.dx;
    penY += run.shift.dy;
    for (const { advance, offset, ...piece } of piecesOf(run)) {
      placed.push({ ...piece, x: penX + offset.x, y: penY + offset.y });
      penX += advance;
    }
  }
  const startX = (first.start?.x ?? 0) - penX * ALIGNMENT[first.style.anchor];
  return placed.map((each) => ({ ...each, x: startX + each.x }));
};

/** The part of a line's width that lies before its anchor. */
const ALIGNMENT: Readonly<Record<TextStyle['anchor'], number>> = { start: 0, middle: 0.5, end: 1 };

const piecesOf = (run: TextRun): readonly Piece[] => {
  const pieces: Piece[] = [];
  let words = '';
  const endWords = (): void => {
    if (words !== '') pieces.push(wordsPiece(run, words));
    words = '';
  };
  for (const character of run.text) {
    if (isUnknownSign(character, run.style)) continue;
    const sign = signOf(character, run.style);
    if (sign === null) words += character;
    else {
      // The layout parts the dot of a metronome mark from its note by a space.
      if (sign.seat === 'behind' && words.trim() === '') words = '';
      endWords();
      pieces.push(signPiece(run, sign));
    }
  }
  endWords();
  return pieces;
};

const signOf = (character: string, style: TextStyle): Sign | null => {
  const codepoint = character.codePointAt(0)!;
  const asSet: Sign = { codepoint, size: 1, seat: 'own' };
  if (style.music && hasGlyph(codepoint)) return asSet;
  const known = WORD_SIGNS.get(codepoint);
  if (known !== undefined) return known;
  return !hasTextGlyph(character, style.face) && hasGlyph(codepoint) ? asSet : null;
};

const wordsPiece = (run: TextRun, words: string): Piece => {
  const { face, letterSpacing, sizeUnits } = run.style;
  const widthOf = (text: string): number =>
    textWidth(text, { style: face, sizeUnits }) + letterSpacing * [...text].length;
  // A viewer drops the spaces at the start of a placed stretch, so they become distance.
  const leading = /^ */.exec(words)?.[0] ?? '';
  const offset = { x: widthOf(leading), y: 0 };
  return { kind: 'words', words: words.replace(/^ +| +$/g, ''), run, advance: widthOf(words), offset };
};

const signPiece = (run: TextRun, { codepoint, seat, size }: Sign): Piece => {
  const glyph = glyphPath(codepoint);
  const em = run.style.sizeUnits;
  const perUnit = (em * size) / 1000;
  const room = SIDE_ROOM[seat] * em;
  const drop = dropOf(glyph, seat, em, perUnit);
  return {
    kind: 'sign',
    glyph,
    letter: LETTERS.get(codepoint) ?? null,
    drop,
    sizeUnits: em * size,
    run,
    advance: glyph.advance * perUnit + 2 * room + run.style.letterSpacing,
    offset: { x: room, y: drop },
  };
};

/** How far a sign's origin lies below the baseline. */
const dropOf = ({ box }: Glyph, seat: Sign['seat'], em: number, perUnit: number): number => {
  switch (seat) {
    case 'own':
      return 0;
    case 'standing':
    case 'behind':
      return -box.y1 * perUnit;
    case 'centred':
      return -HALF_CAPITAL * em - ((box.y0 + box.y1) / 2) * perUnit;
  }
};
