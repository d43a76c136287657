import { drawLine, fillCircle, fillRectangle } from '../../sheets/ink.ts';
import { letteringsOf, type Sheet } from '../../sheets/sheet.ts';
import { drawWords, widthOfWords } from '../../sheets/words.ts';
import { type BarMark, BETWEEN_SIGNS_EM } from './bar-marks.ts';
import type { Placed } from './columns.ts';
import type { PlacedLine, PlacedStretch } from './placed-line.ts';

/** The room for the sign of a repeat, in ems. */
export const REPEAT_EM = 1.1;

/** Sizes in ems. */
const THICK_EM = 0.22;
const THIN_AT_EM = 0.42;
const DOTS_AT_EM = 0.72;
const DOT_EM = 0.11;
const DOTS_APART_EM = 0.42;
const LINE_EM = 0.045;
/** The bracket of an ending stands over the numbers of bars, from its line down to them. */
const BRACKET_EM = { top: 2.55, bottom: 1.4, label: 1.7 };

interface Edges {
  readonly top: number;
  readonly bottom: number;
}

/** The signs of repeats and jumps and the brackets of endings in a line of bars, as the part has them. */
export const drawRepeats = <M extends Placed>(
  { stretches }: PlacedLine<M>,
  marks: readonly BarMark<M>[],
  edges: Edges,
  sheet: Sheet,
): string =>
  stretches
    .map((placed) => {
      const { stretch, x, widthMm } = placed;
      const [first, last] = [marks[stretch.from]!, marks[stretch.until]!];
      return [
        ...(stretch.opens && first.repeat.starts ? [drawSign(x, 1, edges, sheet)] : []),
        ...(stretch.closes && last.repeat.ends ? [drawSign(x + widthMm, -1, edges, sheet)] : []),
        ...(first.repeat.ending === '' ? [] : [drawEnding(placed, marks, edges, sheet)]),
        drawJumps(placed, first, last, edges, sheet),
      ].join('');
    })
    .join('');

/** @param way into the bar: to the right from its beginning, to the left from its end */
const drawSign = (x: number, way: 1 | -1, { top, bottom }: Edges, { emMm }: Sheet): string => {
  const thick = {
    x: way === 1 ? x : x - THICK_EM * emMm,
    y: top,
    widthMm: THICK_EM * emMm,
    heightMm: bottom - top,
  };
  const thin = x + way * THIN_AT_EM * emMm;
  const middle = (top + bottom) / 2;
  return [
    fillRectangle(thick, '#000'),
    drawLine(
      [
        [thin, top],
        [thin, bottom],
      ],
      { widthMm: LINE_EM * emMm },
    ),
    ...[-1, 1].map((side) =>
      fillCircle(x + way * DOTS_AT_EM * emMm, middle + side * DOTS_APART_EM * emMm, DOT_EM * emMm, '#000'),
    ),
  ].join('');
};

/** Beside rehearsal marks: a segno and a coda where bars begin, `D.C.`, `Fine` and the way to the coda where they end. */
const drawJumps = <M extends Placed>(
  { stretch, x, widthMm }: PlacedStretch<M>,
  first: BarMark<M>,
  last: BarMark<M>,
  { top }: Edges,
  sheet: Sheet,
): string => {
  const em = sheet.emMm;
  const { strong } = letteringsOf(sheet);
  const baseline = top - BRACKET_EM.label * em;
  return [
    ...(stretch.opens
      ? [drawWords(first.repeat.arrives, x + afterNames(first, sheet), baseline, strong)]
      : []),
    ...(stretch.closes
      ? [drawWords(last.repeat.leaves, x + widthMm - 0.4 * em, baseline, strong, 'end')]
      : []),
  ].join('');
};

/** From the beginning of a bar to behind its rehearsal mark and the number of its ending. */
const afterNames = <M extends Placed>({ repeat, rehearsal }: BarMark<M>, sheet: Sheet): number => {
  const { small, strong } = letteringsOf(sheet);
  const between = BETWEEN_SIGNS_EM * sheet.emMm;
  const ending = repeat.parts ? repeat.ending : '';
  return [
    rehearsal === '' ? 0 : widthOfWords(rehearsal, strong) + between,
    ending === '' ? 0 : widthOfWords(ending, small) + between,
    0.15 * sheet.emMm,
  ].reduce((sum, each) => sum + each, 0);
};

const drawEnding = <M extends Placed>(
  { stretch, x, widthMm }: PlacedStretch<M>,
  marks: readonly BarMark<M>[],
  { top }: Edges,
  sheet: Sheet,
): string => {
  const em = sheet.emMm;
  const { small, strong } = letteringsOf(sheet);
  const { repeat, rehearsal } = marks[stretch.from]!;
  const begins = stretch.opens && repeat.parts;
  const next = marks[stretch.until + 1]?.repeat;
  const ends = stretch.closes && (next === undefined || next.parts);
  const [high, low] = [top - BRACKET_EM.top * em, top - BRACKET_EM.bottom * em];
  // Beside the bracket of the next ending.
  const right = x + widthMm - (ends ? 0.2 * em : 0);
  const afterMark = rehearsal === '' ? 0 : widthOfWords(rehearsal, strong) + 0.5 * em;
  return [
    drawLine(
      [
        ...(begins ? [[x, low] as const] : []),
        [x, high],
        [right, high],
        ...(ends ? [[right, low] as const] : []),
      ],
      { widthMm: LINE_EM * em },
    ),
    ...(begins
      ? [drawWords(repeat.ending, x + afterMark + 0.25 * em, top - BRACKET_EM.label * em, small)]
      : []),
  ].join('');
};
