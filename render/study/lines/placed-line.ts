import { FEET, type Letter, type Move, type Setting } from '../../../engine/index.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import { drawLine, frameRectangle } from '../../sheets/ink.ts';
import { letteringsOf, type Sheet } from '../../sheets/sheet.ts';
import { CAPITAL_EM, drawWords, widthOfWords } from '../../sheets/words.ts';
import type { BarMark } from './bar-marks.ts';
import type { Column, Placed, Stretch } from './columns.ts';

/** The pedals from above: D C B, then E F G A. */
export const LANES: readonly Letter[] = [...FEET.left, ...FEET.right];

/** How tall a lane is, and how far apart the two feet are; in ems. */
export interface LaneSizes {
  readonly laneEm: number;
  readonly feetGapEm: number;
}

/** From the top of the lanes to the middle of a pedal's, in ems. */
export const middleOfLane = (letter: Letter, { laneEm, feetGapEm }: LaneSizes): number => {
  const lane = LANES.indexOf(letter);
  return (lane + 0.5) * laneEm + (lane < FEET.left.length ? 0 : feetGapEm);
};

/** How tall all lanes are, in ems. */
export const lanesEm = ({ laneEm, feetGapEm }: LaneSizes): number => LANES.length * laneEm + feetGapEm;

/** How the lines of one drawing look. */
export interface LineLook {
  readonly sheet: Sheet;
  readonly naming: NoteNaming;
  /** Room for the setting at the start of a line, in ems. */
  readonly leftEm: number;
}

/** Above the lanes of a line: rehearsal marks, and under them the bar numbers; in ems. */
export const HEAD_EM = 2.9;

/** Right of the setting at the start of a line, in ems. */
export const AFTER_SETTING_EM = 0.5;

/** A line of bars is widened to the margin, but not so far that a short last line looks empty. */
const MOST_WIDENED = 1.4;

export type PlacedColumn<M extends Placed = Move> = Column<M> & { readonly x: number };

export interface PlacedStretch<M extends Placed = Move> {
  readonly stretch: Stretch<M>;
  readonly x: number;
  readonly widthMm: number;
  /** What is left of it between the signs of repeats. */
  readonly inner: { readonly x: number; readonly widthMm: number };
  readonly columns: readonly PlacedColumn<M>[];
}

/** A line of bars at its place; lengths in millimetres. */
export interface PlacedLine<M extends Placed = Move> {
  readonly left: number;
  readonly right: number;
  readonly stretches: readonly PlacedStretch<M>[];
}

/**
 * Sets a line of bars from `left` on, widened to fill the room.
 *
 * @param roomMm from `left` to the margin
 */
export const placeLine = <M extends Placed>(
  line: readonly Stretch<M>[],
  left: number,
  roomMm: number,
  { emMm }: Sheet,
): PlacedLine<M> => {
  const ownEm = line.reduce((sum, { widthEm }) => sum + widthEm, 0);
  const mmPerEm = Math.min(roomMm / ownEm, emMm * MOST_WIDENED);
  let right = left;
  const stretches = line.map((stretch): PlacedStretch<M> => {
    const x = right;
    right += stretch.widthEm * mmPerEm;
    const inner = {
      x: x + stretch.leadEm * mmPerEm,
      widthMm: (stretch.widthEm - stretch.leadEm - stretch.tailEm) * mmPerEm,
    };
    let at = inner.x;
    const columns = stretch.columns.map((column) => {
      const own = at;
      at += column.widthEm * mmPerEm;
      return { ...column, x: own };
    });
    return { stretch, x, widthMm: right - x, inner, columns };
  });
  return { left, right, stretches };
};

/** The setting at the start of each line, and the moves made in it. */
export const followSettings = (
  initial: Setting,
  lines: readonly (readonly Stretch[])[],
): readonly { readonly line: readonly Stretch[]; readonly setting: Setting }[] => {
  let setting = initial;
  return lines.map((line) => {
    const before = setting;
    setting = { ...before, ...Object.fromEntries(movesOf(line).map(({ letter, to }) => [letter, to])) };
    return { line, setting: before };
  });
};

const movesOf = (line: readonly Stretch[]): readonly Move[] =>
  line.flatMap(({ columns }) => columns.flatMap(({ moves }) => moves));

/** The line at which a line of bars ends. */
export const drawEndLine = (
  { right }: Pick<PlacedLine, 'right'>,
  { top, bottom }: { readonly top: number; readonly bottom: number },
  { emMm }: Sheet,
): string =>
  drawLine(
    [
      [right, top],
      [right, bottom],
    ],
    { widthMm: 0.06 * emMm },
  );

/** The line of a bar, its number, and over it its rehearsal mark in a frame. */
export const drawBarLine = (
  { number, rehearsal }: Pick<BarMark, 'number' | 'rehearsal'>,
  x: number,
  { top, bottom }: { readonly top: number; readonly bottom: number },
  sheet: Sheet,
): string => {
  const { small, strong } = letteringsOf(sheet);
  const em = sheet.emMm;
  const baseline = top - 1.7 * em;
  const frame = {
    x,
    y: baseline - (CAPITAL_EM + 0.22) * em,
    widthMm: widthOfWords(rehearsal, strong) + 0.5 * em,
    heightMm: (CAPITAL_EM + 0.44) * em,
  };
  const line = [
    [x, top - 0.3 * em],
    [x, bottom],
  ] as const;
  return [
    drawLine(line, { widthMm: 0.045 * em, colour: '#555' }),
    drawWords(number, x + 0.1 * em, top - 0.5 * em, small),
    ...(rehearsal === ''
      ? []
      : [
          drawWords(rehearsal, x + 0.25 * em, baseline, strong),
          frameRectangle(frame, { widthMm: 0.06 * em }),
        ]),
  ].join('');
};
