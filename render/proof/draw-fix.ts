import {
  type HarpString,
  isPosition,
  LETTERS,
  type Letter,
  type LeverFix,
  type MarkingFix,
  nameLever,
  type Score,
} from '../../engine/index.ts';
import { drawRows } from '../draw/draw-rows.ts';
import { type Drawing, PADDING_VU, roundUnits } from '../draw/drawing.ts';
import { type RowItem, settingItems } from '../draw/name-items.ts';
import type { NoteNaming } from '../markings/note-names.ts';

/** Blue and in a square frame, so that an edit is taken neither for a marking nor for the number of a fault. */
const COLOUR = '#0b57d0';
const STROKE_VU = 0.3;

/** One of an edit's changes as it is drawn, and where. */
export interface DrawnFix {
  /** What of the edit it shows: where a marking goes from, or all the rest. */
  readonly side: 'from' | 'here';
  readonly items: readonly RowItem[];
}

/** What to write, to correct or to strike out: `+ E♭`, `E♭ → E♮`, `× E♭`; a marking that moves is struck out and written anew. */
export const itemsOfFix = (fix: MarkingFix, score: Score): readonly DrawnFix[] => {
  const name = (letter: Letter, position: -1 | 0 | 1): RowItem => ({
    kind: 'name',
    letter,
    position,
    ringed: false,
  });
  const words = (text: string): RowItem => ({ kind: 'words', text });
  const stated = (marking: number): RowItem[] => {
    const { positions } = score.markings[marking]!;
    return LETTERS.flatMap((letter) =>
      positions[letter] === undefined ? [] : [name(letter, positions[letter])],
    );
  };
  const here = (...items: readonly RowItem[]): DrawnFix => ({ side: 'here', items });
  const from = (...items: readonly RowItem[]): DrawnFix => ({ side: 'from', items });
  const old = (marking: number, letter: Letter): RowItem =>
    name(letter, score.markings[marking]!.positions[letter]!);
  switch (fix.kind) {
    case 'add':
      return [here(words('+'), name(fix.letter, fix.position))];
    case 'add-setting':
      return [here(words('+'), ...settingItems(fix.setting, []))];
    case 'alter':
      return [here(old(fix.marking, fix.letter), words('→'), name(fix.letter, fix.position))];
    case 'rename':
      return [here(old(fix.marking, fix.letter), words('→'), name(fix.to, fix.position))];
    case 'move':
      return [from(words('×'), old(fix.marking, fix.letter)), here(words('+'), old(fix.marking, fix.letter))];
    case 'remove':
      return [here(words('×'), old(fix.marking, fix.letter))];
    case 'move-marking':
      return [from(words('×'), ...stated(fix.marking)), here(words('+'), ...stated(fix.marking))];
    case 'remove-marking':
      return [here(words('×'), ...stated(fix.marking))];
  }
};

/** The same of levers: a name with the octave of its string. */
export const itemsOfLeverFix = (fix: LeverFix): readonly DrawnFix[] => {
  const name = ({ letter, octave }: HarpString, alter: number): RowItem =>
    isPosition(alter)
      ? { kind: 'name', letter, position: alter, octave, ringed: false }
      : { kind: 'words', text: nameLever({ letter, octave }, alter) };
  const words = (text: string): RowItem => ({ kind: 'words', text });
  const { letter, octave } = fix.string;
  const string = words(`${letter}${octave}`);
  switch (fix.kind) {
    case 'add':
      return [{ side: 'here', items: [words('+'), name(fix.string, fix.alter)] }];
    case 'alter':
      return [{ side: 'here', items: [string, words('→'), name(fix.string, fix.alter)] }];
    case 'rename':
      return [{ side: 'here', items: [string, words('→'), name(fix.to, fix.alter)] }];
    case 'move':
      return [
        { side: 'from', items: [words('×'), name(fix.string, fix.alter)] },
        { side: 'here', items: [words('+'), name(fix.string, fix.alter)] },
      ];
    case 'remove':
      return [{ side: 'here', items: [words('×'), string] }];
  }
};

/** @param numbers of the faults that it puts right; none where it belongs to no single one */
export const drawFix = (
  items: readonly RowItem[],
  numbers: readonly number[],
  naming: NoteNaming,
): Drawing => {
  const label: readonly RowItem[] =
    numbers.length === 0 ? [] : [{ kind: 'words', text: `${numbers.join(', ')}:` }];
  const inner = drawRows([[...label, ...items]], naming);
  const box = { widthVu: inner.box.widthVu + 2 * PADDING_VU, heightVu: inner.box.heightVu + 2 * PADDING_VU };
  const frame =
    `<rect x="${PADDING_VU}" y="${PADDING_VU}" width="${roundUnits(inner.box.widthVu)}" ` +
    `height="${roundUnits(inner.box.heightVu)}" fill="#fff" stroke="${COLOUR}" stroke-width="${STROKE_VU}"/>`;
  return {
    box,
    body: `${frame}<g fill="${COLOUR}" color="${COLOUR}" transform="translate(${PADDING_VU} ${PADDING_VU})">${inner.body}</g>`,
    text: inner.text,
  };
};
