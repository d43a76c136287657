import { countBars, formatBeat, isInPause, placeAsTold, type Score } from '../../../engine/index.ts';
import type { Block } from '../../sheets/block.ts';
import { drawLine, fillRectangle } from '../../sheets/ink.ts';
import { letteringsOf, type Sheet } from '../../sheets/sheet.ts';
import { CAPITAL_EM, drawWords, widthOfWords } from '../../sheets/words.ts';
import { type BarMark, countedIn, markBars, numbersOf } from './bar-marks.ts';
import { breakLines, columnsOf, type Placed, passedOf, type Stretch, stretchOf } from './columns.ts';
import { drawMoveName } from './pedal-chart.ts';
import {
  AFTER_SETTING_EM,
  drawBarLine,
  drawEndLine,
  HEAD_EM,
  type PlacedColumn,
  type PlacedStretch,
  placeLine,
} from './placed-line.ts';
import { joinQuietBars } from './quiet-bars.ts';
import { drawRepeats } from './repeat-signs.ts';
import { type TellTime, timeTeller } from './time-of-playing.ts';

/** Sizes in ems. */
const BEAT_EM = 1.4;
/** Under the lanes: the counts, and under these the times of playing. */
const COUNTS_EM = 1.5;
const COUNT_BASELINE_EM = 1.1;
const TIME_BASELINE_EM = 2.1;
const BELOW_EM = 1.3;
const QUIET_BARS = { least: 1, widthEm: 4, bySilence: false } as const;
const LABEL_AIR_EM = 0.6;
const COUNT_AIR_EM = 0.5;

/** What moves, in lanes of its own: the pedals, or the hands at the levers. */
export interface Lanes<M extends Placed> {
  /** From the top to the middle of each lane, and to the line of a rest; in ems. */
  readonly middlesEm: readonly number[];
  readonly restEm: number;
  readonly heightEm: number;
  readonly laneOf: (move: M) => number;
  readonly nameOf: (move: M) => string;
  /** What stands before each lane where a line of bars begins: as the moves before it have left it. */
  readonly labelsAfter: (before: readonly M[]) => readonly string[];
  /** Everything that names and labels can be, for the room they take. */
  readonly allNames: readonly string[];
  readonly allLabels: readonly string[];
}

/** Indices of the first and the last of some bars. */
export interface BarRange {
  readonly from: number;
  readonly until: number;
}

interface LineLook<M extends Placed> {
  readonly lanes: Lanes<M>;
  readonly sheet: Sheet;
  /** Room for the labels at the start of a line, in ems. */
  readonly leftEm: number;
  readonly timeOf: TellTime;
}

/** Moves alone in rhythm: lanes, counts under them, and bars in which nothing moves as rests. */
export const drawCountedLine = <M extends Placed>(
  score: Score,
  made: readonly M[],
  lanes: Lanes<M>,
  sheet: Sheet,
  { from, until }: BarRange = { from: 0, until: score.bars.length - 1 },
): readonly Block[] => {
  const { small, smallStrong } = letteringsOf(sheet);
  const moves = placeAsTold(score, made);
  const timeOf = timeTeller(score, sheet);
  const widestEm = (names: readonly string[]): number =>
    Math.max(0, ...names.map((name) => widthOfWords(name, smallStrong))) / sheet.emMm;
  const marks = markBars(score, { moves }, sheet);
  const counted = countBars(score);
  const counts = new Set(
    moves.map(({ at, bar }) => tellCount({ count: null, passed: passedOf(counted[bar]!.countAt(at)) })),
  );
  const namedEm = Math.max(widestEm(lanes.allNames) + LABEL_AIR_EM, widestEm([...counts]) + COUNT_AIR_EM);
  const moveEm = (moves: readonly M[]): number =>
    Math.max(namedEm, widthOfWords(timeOf(moves) ?? '', small) / sheet.emMm + COUNT_AIR_EM);
  const leftEm = widestEm(lanes.allLabels) + AFTER_SETTING_EM;
  const stretches = joinQuietBars(marks.slice(from, until + 1), from, QUIET_BARS, (i) => {
    const columns = columnsOf(
      counted[i]!,
      marks[i]!.moves,
      { beatEm: BEAT_EM, moveEm },
      lanes.laneOf,
      (move) => isInPause(score, move),
    );
    return stretchOf(i, columns, marks[i]!.leastEm);
  });
  const before = moves.filter(({ bar }) => bar < from);
  return breakLines(stretches, sheet.widthMm / sheet.emMm - leftEm).map((line) => {
    const labels = lanes.labelsAfter(before);
    before.push(...line.flatMap(({ columns }) => columns.flatMap((column) => column.moves)));
    return setLine(line, labels, marks, { lanes, sheet, leftEm, timeOf });
  });
};

const setLine = <M extends Placed>(
  line: readonly Stretch<M>[],
  labels: readonly string[],
  marks: readonly BarMark<M>[],
  look: LineLook<M>,
): Block => {
  const { lanes, sheet, leftEm } = look;
  const em = sheet.emMm;
  const { smallStrong } = letteringsOf(sheet);
  const half = (smallStrong.sizeMm * CAPITAL_EM) / 2;
  return {
    heightMm: (HEAD_EM + lanes.heightEm + COUNTS_EM + BELOW_EM) * em,
    draw: (x, y) => {
      const top = y + HEAD_EM * em;
      const edges = { top, bottom: top + lanes.heightEm * em };
      const placed = placeLine(line, x + leftEm * em, sheet.widthMm - leftEm * em, sheet);
      const { left, right, stretches } = placed;
      return [
        ...labels.map((label, lane) => {
          const level = top + lanes.middlesEm[lane]! * em;
          const course = [
            [left, level],
            [right, level],
          ] as const;
          return (
            drawLine(course, { widthMm: 0.045 * em, colour: '#777' }) +
            drawWords(label, x, level + half, smallStrong)
          );
        }),
        ...stretches
          .filter(({ stretch }) => stretch.opens)
          .map(({ stretch, x: left }) => {
            const { rehearsal } = marks[stretch.from]!;
            return drawBarLine({ number: numbersOf(marks, stretch), rehearsal }, left, edges, sheet);
          }),
        drawEndLine(placed, edges, sheet),
        drawRepeats(placed, marks, edges, sheet),
        ...stretches.map((each) =>
          each.columns.length === 0
            ? drawRest(each, countedIn(marks, each.stretch), top + lanes.restEm * em, sheet)
            : each.columns.map((column) => drawColumn(column, edges, look)).join(''),
        ),
      ].join('\n');
    },
  };
};

/** The moves of a moment, each in its lane, the count to make them on, and the time of playing. */
const drawColumn = <M extends Placed>(
  column: PlacedColumn<M>,
  { top, bottom }: { readonly top: number; readonly bottom: number },
  { lanes: { middlesEm, laneOf, nameOf }, sheet, timeOf }: LineLook<M>,
): string => {
  const { small, smallStrong } = letteringsOf(sheet);
  const em = sheet.emMm;
  const moved = column.moves.length > 0;
  const left = column.x + 0.3 * em;
  const time = timeOf(column.moves);
  return [
    ...column.moves.map((move) =>
      drawMoveName(nameOf(move), column.x, top + middlesEm[laneOf(move)]! * em, '#fff', sheet),
    ),
    drawWords(tellCount(column), left, bottom + COUNT_BASELINE_EM * em, moved ? smallStrong : small),
    ...(time === null ? [] : [drawWords(time, left, bottom + TIME_BASELINE_EM * em, small)]),
  ].join('');
};

/** Into more parts than these nobody divides a count aloud. */
const MOST_PARTS = 4;

/** The count, or between counts the part of one that has passed, where that can be said: nothing under a note of a septuplet. */
const tellCount = ({ count, passed }: Pick<PlacedColumn<Placed>, 'count' | 'passed'>): string => {
  if (count !== null) return `${count}`;
  if (passed.den > MOST_PARTS) return '';
  const part = formatBeat(passed);
  return part === '0' ? '' : part;
};

/** Bars in which nothing moves: a thick line, and over it how many they are, which an upbeat alone is not. */
const drawRest = <M extends Placed>(
  { inner: { x, widthMm } }: PlacedStretch<M>,
  bars: number,
  y: number,
  sheet: Sheet,
): string => {
  const em = sheet.emMm;
  const { strong } = letteringsOf(sheet);
  const thick = [
    [x + 0.6 * em, y],
    [x + widthMm - 0.6 * em, y],
  ] as const;
  if (bars === 0) return drawLine(thick, { widthMm: 0.35 * em });
  const count = `${bars}`;
  const middle = x + widthMm / 2;
  const baseline = y - 0.6 * em;
  const width = widthOfWords(count, strong) + 0.4 * em;
  const ground = {
    x: middle - width / 2,
    y: baseline - (CAPITAL_EM + 0.15) * em,
    widthMm: width,
    heightMm: (CAPITAL_EM + 0.3) * em,
  };
  return (
    drawLine(thick, { widthMm: 0.35 * em }) +
    fillRectangle(ground, '#fff') +
    drawWords(count, middle, baseline, strong, 'middle')
  );
};
