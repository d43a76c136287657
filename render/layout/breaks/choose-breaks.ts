import type { Score } from '../../../engine/index.ts';
import type { EngravingOptions } from '../../engraving-options.ts';
import type { Reach } from '../measure/outline.ts';
import { LONE_LINE, lineCost, MOST_NATURAL, pageCoster } from './break-costs.ts';
import type { Breaks } from './breaks.ts';
import { GAP_VU, headingLoss, type PageSpace, withUnder } from './page-space.ts';
import type { RateTurn } from './page-turns.ts';
import { fitPages, type PossibleLine } from './total-fit.ts';

/** A bar as it is by nature; a joined rest is one. Lengths in vu (half staff spaces). */
export interface MeasuredBar extends Reach {
  /** Index into the score's bars. */
  readonly bar: number;
  /** With what our drawings add to it. */
  readonly width: number;
  /** By how much its line came out higher than measured, once lines are laid out; 0 before. */
  readonly more: number;
}

export interface MeasuredPart {
  readonly bars: readonly MeasuredBar[];
  /** Height of the heading over the first system. */
  readonly heading: number;
  /** What stands under the last line, on its page where a page holds both; 0 while that is not known. */
  readonly under: number;
}

/** What the choice of breaks goes by; lengths in vu. */
export interface BreakRequest {
  readonly score: Score;
  readonly part: MeasuredPart;
  readonly markings: ReadonlyMap<number, MarkingHeights>;
  /** Bars (indices) at which a movement begins. */
  readonly movements: ReadonlySet<number>;
  readonly space: PageSpace;
  readonly turns: EngravingOptions['pageTurns'];
  readonly rate: RateTurn;
}

/** Height that markings take beside a bar's own ink, by where they stand. */
export interface MarkingHeights {
  readonly above: number;
  readonly between: number;
  readonly below: number;
}

/** Over a line's staves stands at least its bar's number, and under them the layout leaves a little. */
const LEAST_ABOVE = 6.5;
const LEAST_BELOW = 5.9;

/**
 * Chooses where lines and pages begin, from what was measured.
 *
 * @param lines bars (indices) at which lines begin, the first included, where these are given: then the pages alone
 * are chosen
 */
export const chooseBreaks = (request: BreakRequest, lines: readonly number[] | null = null): Breaks => {
  const { part, rate, space, turns } = request;
  const { bars, heading } = part;
  const barOf = (index: number): number => bars[index]!.bar;
  const fit = fitPages({
    bars: bars.length,
    linesFrom: lines === null ? freeLines(request) : givenLines(request, lines),
    room: space.room + GAP_VU,
    heading: headingLoss(heading),
    pageCost: pageCoster(turns, rate, barOf),
    loneLast: LONE_LINE,
  });
  return {
    systems: fit.systems.slice(1).map(barOf),
    pages: fit.pages.slice(1).map(barOf),
  };
};

/** Every line whose bars fit its width, and one of a single bar in any case. */
const freeLines = (request: BreakRequest): ((first: number) => PossibleLine[]) => {
  const { movements, part, score, space } = request;
  const { bars, under } = part;
  const rehearsals = new Set(
    score.landmarks.filter(({ kind }) => kind === 'rehearsal').map(({ bar }) => bar),
  );
  return (first) => {
    const found: PossibleLine[] = [];
    let natural = first === 0 ? 0 : lineStartWidth(score.bars[bars[first]!.bar]!.keyFifths);
    let height = NO_HEIGHT;
    let inside = 0;
    for (let until = first + 1; until <= bars.length; until += 1) {
      const added = bars[until - 1]!;
      natural += added.width;
      if (natural > MOST_NATURAL * space.width && found.length > 0) break;
      if (until > first + 1) {
        // A movement begins a line, whatever is left of the one before.
        if (movements.has(added.bar)) break;
        if (rehearsals.has(added.bar)) inside += 1;
      }
      height = growHeight(height, added, request);
      const isLast = until === bars.length;
      const shape = {
        bars: until - first,
        natural: natural / space.width,
        isLast,
        isFirst: first === 0,
        rehearsals: inside,
      };
      const own = heightOf(height);
      found.push({
        until,
        cost: lineCost(shape),
        height: isLast ? withUnder(own, under, space.room + GAP_VU) : own,
      });
    }
    return found;
  };
};

/** Lines that the file asks for may be set so much tighter than by nature. */
const MOST_NATURAL_GIVEN = 1.15;

/** Whether lines that begin so can be set in the width of the page. */
export const fitWidth = ({ part, score, space }: BreakRequest, lines: readonly number[]): boolean => {
  const starts = new Set(lines);
  let natural = 0;
  return part.bars.every(({ bar, width }, i) => {
    const begins = i > 0 && starts.has(bar);
    natural = begins ? lineStartWidth(score.bars[bar]!.keyFifths) + width : natural + width;
    return natural <= MOST_NATURAL_GIVEN * space.width;
  });
};

/** The one line that begins with a bar, where all beginnings are given. */
export const givenLines = (
  request: BreakRequest,
  lines: readonly number[],
): ((first: number) => PossibleLine[]) => {
  const { bars } = request.part;
  const starts = new Set(lines);
  return (first) => {
    let height = NO_HEIGHT;
    let until = first;
    do {
      height = growHeight(height, bars[until]!, request);
      until += 1;
    } while (until < bars.length && !starts.has(bars[until]!.bar));
    return [{ until, cost: 0, height: heightOf(height) }];
  };
};

/** How high each line is by what was measured, where all beginnings are given. */
export const lineHeights = (request: BreakRequest, lines: readonly number[]): number[] => {
  const lineFrom = givenLines(request, lines);
  const heights: number[] = [];
  for (let bar = 0; bar < request.part.bars.length; ) {
    const { height, until } = lineFrom(bar)[0]!;
    heights.push(height - GAP_VU);
    bar = until;
  }
  return heights;
};

/** The clef and the key signature before a line's first bar, as the layout sets them (measured with Verovio 6.3.0). */
export const lineStartWidth = (fifths: number): number =>
  7.8 + (fifths === 0 ? 0 : 1.6 + (fifths > 0 ? 2.4 : 2.2) * Math.abs(fifths));

/** What reaches farthest in a line; markings of one side stand on one level. */
interface LineHeight {
  readonly above: number;
  readonly staves: number;
  readonly below: number;
  /** Where the bars that bear markings reach, and how high the markings are. */
  readonly levelAbove: number;
  readonly levelBelow: number;
  readonly markings: MarkingHeights;
  readonly more: number;
}

const NO_MARKINGS: MarkingHeights = { above: 0, between: 0, below: 0 };
const NO_HEIGHT: LineHeight = {
  above: LEAST_ABOVE,
  staves: 0,
  below: LEAST_BELOW,
  levelAbove: 0,
  levelBelow: 0,
  markings: NO_MARKINGS,
  more: 0,
};

const growHeight = (line: LineHeight, bar: MeasuredBar, { markings }: BreakRequest): LineHeight => {
  const own = markings.get(bar.bar) ?? NO_MARKINGS;
  return {
    above: Math.max(line.above, bar.above),
    staves: Math.max(line.staves, bar.staves),
    below: Math.max(line.below, bar.below),
    levelAbove: Math.max(line.levelAbove, own.above > 0 ? bar.above : 0),
    levelBelow: Math.max(line.levelBelow, own.below > 0 ? bar.below : 0),
    markings: {
      above: Math.max(line.markings.above, own.above),
      between: Math.max(line.markings.between, own.between),
      below: Math.max(line.markings.below, own.below),
    },
    more: Math.max(line.more, bar.more),
  };
};

const heightOf = ({ above, below, levelAbove, levelBelow, markings, more, staves }: LineHeight): number =>
  Math.max(above, levelAbove + markings.above + GRACE_VU) +
  staves +
  markings.between +
  more +
  Math.max(below, levelBelow + markings.below + GRACE_VU) +
  GAP_VU;

/** Between a marking and what it stands under or over. */
const GRACE_VU = 2;
