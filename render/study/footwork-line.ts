import {
  FEET,
  formatBeat,
  type Letter,
  type Plan,
  rational,
  type Score,
  type Setting,
  subtract,
} from '../../engine/index.ts';
import type { NoteNaming } from '../markings/note-names.ts';
import type { Block } from '../sheets/block.ts';
import { drawLine, fillRectangle } from '../sheets/ink.ts';
import { nameChange } from '../sheets/note-words.ts';
import { letteringsOf, type Sheet } from '../sheets/sheet.ts';
import { CAPITAL_EM, drawWords, widthOfWords } from '../sheets/words.ts';
import { type BarMark, markBars, widestChangeEm } from './bar-marks.ts';
import { breakLines, columnsOf, type Stretch, stretchOf } from './columns.ts';
import { drawMoveName } from './pedal-chart.ts';
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
  type PlacedStretch,
  placeLine,
} from './placed-line.ts';

/** Sizes of the lines in ems. */
const BEAT_EM = 1.4;
const SIZES: LaneSizes = { laneEm: 1.25, feetGapEm: 0.8 };
/** Under the lanes: the counts. */
const COUNTS_EM = 1.5;
const BELOW_EM = 1.3;
const REST_EM = 4;
const LABEL_AIR_EM = 0.6;
const COUNT_AIR_EM = 0.5;

/** Indices of the first and the last of some bars. */
interface BarRange {
  readonly from: number;
  readonly until: number;
}

/** The setting as the bars before have left it. */
const settingBefore = ({ initial, moves }: Plan, bar: number): Setting => ({
  ...initial,
  ...Object.fromEntries(moves.filter((move) => move.bar < bar).map(({ letter, to }) => [letter, to])),
});

/** The feet alone in rhythm: a line for each pedal, counts under them, and bars in which nothing moves as rests. */
export const drawFootwork = (
  score: Score,
  plan: Plan,
  naming: NoteNaming,
  sheet: Sheet,
  { from, until }: BarRange = { from: 0, until: score.bars.length - 1 },
): readonly Block[] => {
  const marks = markBars(score, plan, sheet);
  const changeEm = widestChangeEm(naming, sheet);
  const leftEm = changeEm + AFTER_SETTING_EM;
  const moveEm = Math.max(changeEm + LABEL_AIR_EM, widestCountEm(plan, sheet) + COUNT_AIR_EM);
  const stretches = joinRests(marks.slice(from, until + 1), from, (i) =>
    stretchOf(i, columnsOf(score.bars[i]!, marks[i]!.moves, { beatEm: BEAT_EM, moveEm }), marks[i]!.leastEm),
  );
  const lines = breakLines(stretches, sheet.widthMm / sheet.emMm - leftEm);
  return followSettings(settingBefore(plan, from), lines).map(({ line, setting }) =>
    setLine(line, setting, marks, { sheet, naming, leftEm }),
  );
};

/** Bars with moves as they are; those between them as one rest, up to a rehearsal mark. */
const joinRests = (
  marks: readonly BarMark[],
  first: number,
  barAt: (bar: number) => Stretch,
): readonly Stretch[] => {
  const stretches: Stretch[] = [];
  for (const [index, { moves, rehearsal, leastEm }] of marks.entries()) {
    const bar = first + index;
    const open = stretches.at(-1);
    if (moves.length > 0) stretches.push(barAt(bar));
    else if (open !== undefined && open.columns.length === 0 && rehearsal === '')
      stretches[stretches.length - 1] = { ...open, until: bar };
    else
      stretches.push({
        from: bar,
        until: bar,
        opens: true,
        columns: [],
        widthEm: Math.max(REST_EM, leastEm),
      });
  }
  return stretches;
};

const setLine = (
  line: readonly Stretch[],
  setting: Setting,
  marks: readonly BarMark[],
  { sheet, naming, leftEm }: LineLook,
): Block => {
  const em = sheet.emMm;
  const { smallStrong } = letteringsOf(sheet);
  const half = (smallStrong.sizeMm * CAPITAL_EM) / 2;
  return {
    heightMm: (HEAD_EM + lanesEm(SIZES) + COUNTS_EM + BELOW_EM) * em,
    draw: (x, y) => {
      const top = y + HEAD_EM * em;
      const edges = { top, bottom: top + lanesEm(SIZES) * em };
      const placed = placeLine(line, x + leftEm * em, sheet.widthMm - leftEm * em, sheet);
      const { left, right, stretches } = placed;
      const levelOf = (letter: Letter): number => top + middleOfLane(letter, SIZES) * em;
      return [
        ...LANES.map((letter) => {
          const course = [
            [left, levelOf(letter)],
            [right, levelOf(letter)],
          ] as const;
          const name = nameChange(letter, setting[letter], naming);
          return (
            drawLine(course, { widthMm: 0.045 * em, colour: '#777' }) +
            drawWords(name, x, levelOf(letter) + half, smallStrong)
          );
        }),
        ...stretches
          .filter(({ stretch }) => stretch.opens)
          .map((each) => drawBarLine(marks[each.stretch.from]!, each.x, edges, sheet)),
        drawEndLine(placed, edges, sheet),
        ...stretches.map((each) =>
          each.columns.length === 0
            ? drawRest(each, edges, sheet)
            : each.columns.map((column) => drawColumn(column, levelOf, edges.bottom, naming, sheet)).join(''),
        ),
      ].join('\n');
    },
  };
};

/** The moves of a moment, each on its pedal's line, and the count to make them on. */
const drawColumn = (
  column: PlacedColumn,
  levelOf: (letter: Letter) => number,
  bottom: number,
  naming: NoteNaming,
  sheet: Sheet,
): string => {
  const { small, smallStrong } = letteringsOf(sheet);
  const moved = column.moves.length > 0;
  return [
    ...column.moves.map(({ letter, to }) =>
      drawMoveName(nameChange(letter, to, naming), column.x, levelOf(letter), '#fff', sheet),
    ),
    drawWords(
      tellCount(column),
      column.x + 0.3 * sheet.emMm,
      bottom + 1.1 * sheet.emMm,
      moved ? smallStrong : small,
    ),
  ].join('');
};

/** The beat, or between beats the part of one that has passed. */
const tellCount = ({ count, moves }: Pick<PlacedColumn, 'count' | 'moves'>): string => {
  if (count !== null) return `${count}`;
  const beat = moves[0]!.beat;
  const part = formatBeat(subtract(beat, rational(Math.floor(beat.num / beat.den))));
  return part === '0' ? '' : part;
};

const widestCountEm = ({ moves }: Plan, sheet: Sheet): number => {
  const { smallStrong } = letteringsOf(sheet);
  const counts = new Set(moves.map((move) => tellCount({ count: null, moves: [move] })));
  return Math.max(0, ...[...counts].map((count) => widthOfWords(count, smallStrong))) / sheet.emMm;
};

/** Bars in which nothing moves: a thick line between the feet, and over it how many they are. */
const drawRest = (
  { stretch, x, widthMm }: PlacedStretch,
  { top }: { readonly top: number },
  sheet: Sheet,
): string => {
  const em = sheet.emMm;
  const { strong } = letteringsOf(sheet);
  const y = top + (FEET.left.length * SIZES.laneEm + SIZES.feetGapEm / 2) * em;
  const thick = [
    [x + 0.6 * em, y],
    [x + widthMm - 0.6 * em, y],
  ] as const;
  const count = `${stretch.until - stretch.from + 1}`;
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
