import {
  countBars,
  FEET,
  isInPause,
  type Letter,
  type Plan,
  type Position,
  placeAsTold,
  type Score,
  type Setting,
} from '../../../engine/index.ts';
import type { NoteNaming } from '../../markings/note-names.ts';
import type { Block } from '../../sheets/block.ts';
import { drawLine, fillCircle, fillRectangle } from '../../sheets/ink.ts';
import { nameChange } from '../../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../../sheets/sheet.ts';
import { CAPITAL_EM, drawWords, widthOfWords } from '../../sheets/words.ts';
import { type BarMark, markBars, numbersOf, widestChangeEm } from './bar-marks.ts';
import { breakLines, columnsOf, type Placed, type Stretch, stretchOf } from './columns.ts';
import {
  AFTER_SETTING_EM,
  drawBarLine,
  drawEndLine,
  followSettings,
  HEAD_EM,
  LANES,
  type LaneSizes,
  type LineLook,
  lanesEm,
  middleOfLane,
  type PlacedColumn,
  type PlacedLine,
  type PlacedStretch,
  placeLine,
} from './placed-line.ts';
import { joinQuietBars } from './quiet-bars.ts';
import { drawRepeats } from './repeat-signs.ts';
import { type TellTime, timeTeller } from './time-of-playing.ts';

/** Sizes of the chart in ems. */
const BEAT_EM = 0.9;
const SIZES: LaneSizes = { laneEm: 2, feetGapEm: 0.7 };
/** From three bars on, bars without a move are told as one. */
const QUIET_BARS = { least: 3, widthEm: 5, bySilence: true } as const;
/** From a lane's middle to the line of flat or of sharp. */
const LEVEL_EM = 0.52;
const BELOW_EM = 1.5;
const TIME_BASELINE_EM = 0.9;
/** Round the name of a move. */
const LABEL_AIR_EM = 0.2;

interface ChartLook extends LineLook {
  readonly timeOf: TellTime;
}

const GROUND = '#f1f1f1';

/** The chart of the pedals over the whole piece: a block for each line of bars. */
export const drawPedalChart = (
  score: Score,
  plan: Plan,
  naming: NoteNaming,
  sheet: Sheet,
): readonly Block[] => {
  const changeEm = widestChangeEm(naming, sheet);
  const timeOf = timeTeller(score, sheet);
  const look: ChartLook = { sheet, naming, leftEm: changeEm + AFTER_SETTING_EM, timeOf };
  const { small } = letteringsOf(sheet);
  const timeEm = (moves: readonly Placed[]): number =>
    widthOfWords(timeOf(moves) ?? '', small) / sheet.emMm + 3 * LABEL_AIR_EM;
  const marks = markBars(score, { moves: placeAsTold(score, plan.moves) }, sheet);
  const counted = countBars(score);
  const widths = {
    beatEm: BEAT_EM,
    moveEm: (moves: readonly Placed[]) => Math.max(changeEm + 3 * LABEL_AIR_EM, timeEm(moves)),
  };
  const stretches = joinQuietBars(marks, 0, QUIET_BARS, (i) => {
    return stretchOf(
      i,
      columnsOf(
        counted[i]!,
        marks[i]!.moves,
        widths,
        ({ letter }) => letter,
        (move) => isInPause(score, move),
      ),
      marks[i]!.leastEm,
    );
  });
  const lines = breakLines(stretches, sheet.widthMm / sheet.emMm - look.leftEm);
  return followSettings(plan.initial, lines).map(({ line, setting }) => setLine(line, setting, marks, look));
};

const setLine = (
  line: readonly Stretch[],
  setting: Setting,
  marks: readonly BarMark[],
  look: ChartLook,
): Block => {
  const { sheet, leftEm } = look;
  const em = sheet.emMm;
  return {
    heightMm: (HEAD_EM + lanesEm(SIZES) + BELOW_EM) * em,
    draw: (x, y) => {
      const edges = { top: y + HEAD_EM * em, bottom: y + (HEAD_EM + lanesEm(SIZES)) * em };
      const placed = placeLine(line, x + leftEm * em, sheet.widthMm - leftEm * em, sheet);
      const columns = placed.stretches.flatMap((each) => each.columns);
      const opened = placed.stretches.filter(({ stretch }) => stretch.opens);
      return [
        ...LANES.map((letter) => drawLane(letter, placed, edges.top, em)),
        ...opened.map(({ stretch, x: left }) => {
          const { rehearsal } = marks[stretch.from]!;
          return drawBarLine({ number: numbersOf(marks, stretch), rehearsal }, left, edges, sheet);
        }),
        ...placed.stretches
          .filter(({ stretch }) => stretch.columns.length === 0)
          .map((each) => drawQuietBars(each, marks[each.stretch.from]!.silent, edges.top, em)),
        drawEndLine(placed, edges, sheet),
        drawRepeats(placed, marks, edges, sheet),
        drawBeats(columns, edges.top, em),
        ...columns.map((column) => drawTime(column, edges.bottom, look)),
        ...LANES.map((letter) =>
          drawCourse(letter, setting, columns, { ...placed, x, top: edges.top }, look),
        ),
      ].join('\n');
    },
  };
};

const drawLane = (letter: Letter, { left, right }: PlacedLine, top: number, em: number): string => {
  const natural = top + middleOfLane(letter, SIZES) * em;
  const ground = {
    x: left,
    y: natural - 0.46 * SIZES.laneEm * em,
    widthMm: right - left,
    heightMm: 0.92 * SIZES.laneEm * em,
  };
  const middle = [
    [left, natural],
    [right, natural],
  ] as const;
  return (
    fillRectangle(ground, GROUND) + drawLine(middle, { widthMm: 0.023 * em, colour: '#999', dashed: true })
  );
};

/** Between the feet, what several bars are: a thick line for a rest, a row of dots where the harp plays on. */
const drawQuietBars = (
  { inner: { x, widthMm } }: PlacedStretch,
  silent: boolean,
  top: number,
  em: number,
): string => {
  const y = top + (FEET.left.length * SIZES.laneEm + SIZES.feetGapEm / 2) * em;
  if (!silent)
    return [-1, 0, 1].map((i) => fillCircle(x + widthMm / 2 + i * 0.6 * em, y, 0.09 * em, '#000')).join('');
  const thick = [
    [x + 0.6 * em, y],
    [x + widthMm - 0.6 * em, y],
  ] as const;
  return drawLine(thick, { widthMm: 0.35 * em });
};

/** Small strokes between the feet, one for each count. */
const drawBeats = (columns: readonly PlacedColumn[], top: number, em: number): string => {
  const y = top + FEET.left.length * SIZES.laneEm * em;
  return columns
    .filter(({ count }) => count !== null)
    .map(({ x }) => {
      const stroke = [
        [x, y + 0.12 * em],
        [x, y + (SIZES.feetGapEm - 0.12) * em],
      ] as const;
      return drawLine(stroke, { widthMm: 0.045 * em });
    })
    .join('');
};

/** Under the lanes, for which time of playing moves are made that are made only when the music comes back. */
const drawTime = ({ moves, x }: PlacedColumn, bottom: number, { sheet, timeOf }: ChartLook): string => {
  const time = timeOf(moves);
  const em = sheet.emMm;
  return time === null
    ? ''
    : drawWords(time, x + 0.3 * em, bottom + TIME_BASELINE_EM * em, letteringsOf(sheet).small);
};

interface Edges {
  /** Where the setting stands. */
  readonly x: number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
}

/** Where a pedal stands along a line of bars, with the name of each move. */
const drawCourse = (
  letter: Letter,
  setting: Setting,
  columns: readonly PlacedColumn[],
  { x, left, right, top }: Edges,
  { sheet, naming }: LineLook,
): string => {
  const em = sheet.emMm;
  const { smallStrong } = letteringsOf(sheet);
  const half = (smallStrong.sizeMm * CAPITAL_EM) / 2;
  const middle = top + middleOfLane(letter, SIZES) * em;
  /** A flat is the top notch, a sharp the bottom one, as on the harp. */
  const levelAt = (position: Position): number => middle + position * LEVEL_EM * em;
  const moves = columns.flatMap((column) =>
    column.moves.filter((move) => move.letter === letter).map((move) => ({ x: column.x, to: move.to })),
  );
  const points: (readonly [number, number])[] = [[left, levelAt(setting[letter])]];
  for (const move of moves) points.push([move.x, points.at(-1)![1]], [move.x, levelAt(move.to)]);
  points.push([right, points.at(-1)![1]]);
  return [
    drawWords(nameChange(letter, setting[letter], naming), x, middle + half, smallStrong),
    drawLine(points, { widthMm: 0.115 * em }),
    ...moves.map((move) =>
      drawMoveName(nameChange(letter, move.to, naming), move.x, levelAt(move.to), GROUND, sheet),
    ),
  ].join('');
};

/** The name of a move on its pedal's line, from the moment on; a ground hides the line. */
export const drawMoveName = (
  name: string,
  x: number,
  middle: number,
  ground: string,
  sheet: Sheet,
): string => {
  const em = sheet.emMm;
  const { smallStrong } = letteringsOf(sheet);
  const half = (smallStrong.sizeMm * CAPITAL_EM) / 2;
  const start = x + LABEL_AIR_EM * em;
  const room = {
    x: start,
    y: middle - half - 0.1 * em,
    widthMm: widthOfWords(name, smallStrong) + LABEL_AIR_EM * em,
    heightMm: 2 * half + 0.2 * em,
  };
  const words = drawWords(name, start + 0.1 * em, middle + half, smallStrong);
  return `<g class="chart-move" data-change="${name}">${fillRectangle(room, ground)}${words}</g>`;
};
