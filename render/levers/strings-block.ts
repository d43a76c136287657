import {
  type HarpString,
  isFixedString,
  type LeverHarpProfile,
  type LeverPlan,
  listStrings,
  openAlter,
} from '../../engine/index.ts';
import { STRING_COLOURS } from '../draw/string-colours.ts';
import { type NoteNaming, printedAlter } from '../markings/note-names.ts';
import type { Block } from '../sheets/block.ts';
import { drawLine, fillRectangle } from '../sheets/ink.ts';
import { nameInWords } from '../sheets/note-words.ts';
import type { Sheet } from '../sheets/sheet.ts';
import { drawWords, type Lettering, widthOfWords } from '../sheets/words.ts';
import { leverShape, STRING_PICTURE, stringColour, stringEnd, stringsWidth } from './string-picture.ts';

const COLOURS = { red: STRING_COLOURS.c, dark: STRING_COLOURS.f, plain: '#888' } as const;

/** Wider than the text of A4 the picture would be higher than low sheets. */
const MOST_WIDTH_EM = 52;
/** Names of strings are no larger than this, and keep so much of the room between two strings. */
const NAME_EM = 0.8;
const NAME_SHARE = 0.9;
/** Over the levers, for the names of what sounds with a lever up; and under the strings; in sizes of the names. */
const ABOVE_NAMES = 1.5;
const BELOW_NAMES = 2.9;

/** One string before the first note. */
interface SetString {
  readonly string: HarpString;
  /** Null where it has none. */
  readonly lever: 'up' | 'down' | null;
  /** What it gives open, as it is tuned. */
  readonly open: string;
  /** What it gives with its lever up. */
  readonly raised: string;
}

const setStrings = (
  { initial, tuning }: LeverPlan,
  profile: LeverHarpProfile,
  naming: NoteNaming,
): readonly SetString[] => {
  const up = new Set(initial.map(({ letter, octave }) => `${letter}${octave}`));
  return listStrings(profile).map((string) => {
    const alter = openAlter(tuning, string);
    return {
      string,
      lever: isFixedString(profile, string)
        ? null
        : up.has(`${string.letter}${string.octave}`)
          ? 'up'
          : 'down',
      open: nameInWords(string.letter, printedAlter(alter), naming),
      raised: nameInWords(string.letter, printedAlter(alter + 1), naming),
    };
  });
};

/**
 * The strings of a lever harp before the first note, the lowest left: under each what it is tuned to, over those whose
 * lever is up what they give, and the number of the octave under each C.
 */
export const drawStrings = (
  plan: LeverPlan,
  profile: LeverHarpProfile,
  naming: NoteNaming,
  sheet: Sheet,
): Block => {
  const strings = setStrings(plan, profile, naming);
  const unit = Math.min(sheet.widthMm, MOST_WIDTH_EM * sheet.emMm) / stringsWidth(strings.length);
  const lettering = letteringFor(strings, unit, sheet);
  const { sizeMm } = lettering;
  const top = ABOVE_NAMES * sizeMm;
  return {
    heightMm: top + stringEnd(0, strings.length) * unit + BELOW_NAMES * sizeMm,
    draw: (x, y) => {
      const middleOf = (place: number): number =>
        x + (STRING_PICTURE.margin + place * STRING_PICTURE.apart) * unit;
      const neck = y + top + STRING_PICTURE.neck * unit;
      const edge = [
        [middleOf(0) - 4 * unit, neck],
        [middleOf(strings.length - 1) + 4 * unit, neck],
      ] as const;
      return [
        drawLine(edge, { widthMm: 2.5 * unit }),
        ...strings.map((each, place) =>
          drawString(
            each,
            { x: middleOf(place), top: y + top, end: stringEnd(place, strings.length), unit },
            lettering,
          ),
        ),
      ].join('\n');
    },
  };
};

const letteringFor = (strings: readonly SetString[], unit: number, { emMm }: Sheet): Lettering => {
  const one = { sizeMm: 1, face: 'bold' } as const;
  const widest = Math.max(
    ...strings.flatMap(({ open, raised }) => [open, raised]).map((name) => widthOfWords(name, one)),
  );
  return {
    sizeMm: Math.min(NAME_EM * emMm, (NAME_SHARE * STRING_PICTURE.apart * unit) / widest),
    face: 'regular',
  };
};

interface StringPlace {
  readonly x: number;
  readonly top: number;
  /** In units of the picture. */
  readonly end: number;
  /** Millimetres. */
  readonly unit: number;
}

const drawString = (
  { string, lever, open, raised }: SetString,
  { x, top, end, unit }: StringPlace,
  lettering: Lettering,
): string => {
  const { sizeMm } = lettering;
  const line = [
    [x, top + STRING_PICTURE.neck * unit],
    [x, top + end * unit],
  ] as const;
  const colour = stringColour(string.letter);
  const below = top + end * unit + sizeMm;
  const body = [
    drawLine(line, { widthMm: (colour === 'plain' ? 0.8 : 1.3) * unit, colour: COLOURS[colour] }),
    ...(lever === null ? [] : [drawLever(lever === 'up', x, top, unit)]),
    ...(lever === 'up'
      ? [
          drawWords(
            raised,
            x,
            top - 0.3 * sizeMm + STRING_PICTURE.neck * 0.6 * unit,
            { ...lettering, face: 'bold' },
            'middle',
          ),
        ]
      : []),
    drawWords(open, x, below, lettering, 'middle'),
    ...(string.letter === 'C'
      ? [drawWords(`${string.octave}`, x, below + 1.2 * sizeMm, lettering, 'middle')]
      : []),
  ].join('');
  return `<g class="set-string" data-string="${string.letter}${string.octave}" data-lever="${lever ?? 'none'}">${body}</g>`;
};

const drawLever = (isUp: boolean, x: number, top: number, unit: number): string => {
  const shape = leverShape(isUp);
  const place = {
    x: x + shape.x * unit,
    y: top + shape.y * unit,
    widthMm: shape.width * unit,
    heightMm: shape.height * unit,
  };
  return fillRectangle(place, isUp ? '#000' : '#bbb');
};
