import {
  FEET,
  type Letter,
  type Move,
  type PedalFinding,
  type Position,
  rationalKey,
  toNumber,
} from '../../../../../engine/index.ts';
import { quartersTold } from '../../decisions/places.ts';
import type { PedalNeed, PlannedPart } from '../../planner/planned-part.ts';

/**
 * Left of the bars stand the letters and the signs of their positions; above them the bar numbers, and under these the
 * crosses at what cannot be played, clear of the names of moves. In px of the chart.
 */
export const LEFT = 52;
const TOP = 28;
const LANE = 22;
const GAP = 2;
const FEET_GAP = 8;
const NOTCH = 6.5;

/** The lanes from the top, the feet apart: D C B, then E F G A. */
const LANE_TOP: ReadonlyMap<Letter, number> = new Map([
  ...FEET.left.map((letter, i) => [letter, TOP + i * (LANE + GAP)] as const),
  ...FEET.right.map((letter, i) => [letter, TOP + FEET_GAP + (i + FEET.left.length) * (LANE + GAP)] as const),
]);

export const HEIGHT = TOP + FEET_GAP + 7 * (LANE + GAP) + 4;

/** Where the feet part. */
export const DIVIDER_Y = LANE_TOP.get('E')! - (FEET_GAP + GAP) / 2;

export const laneBox = (letter: Letter): { readonly top: number; readonly height: number } => ({
  top: LANE_TOP.get(letter)!,
  height: LANE,
});

/** Flat is the top notch, sharp the bottom one, as on the harp. */
export const levelOf = (letter: Letter, position: Position): number =>
  LANE_TOP.get(letter)! + LANE / 2 + position * NOTCH;

export const lengthQuarters = ({ bars }: Pick<PlannedPart, 'bars'>): number => {
  const last = bars.at(-1);
  return last === undefined ? 0 : last.onsetQuarters + last.durationQuarters;
};

/** Where a move is drawn, in quarters. */
export const moveQuarters = (part: Pick<PlannedPart, 'bars'>, { at, bar, beat }: Move): number =>
  quartersTold(part, { barIndex: bar, beat: rationalKey(beat) }, toNumber(at));

/** A pedal's position over the part as the data of an SVG path. */
export const stepPath = (part: PlannedPart, letter: Letter, xOf: (quarters: number) => number): string => {
  const { initial, moves } = part.plan;
  const steps = moves
    .filter((move) => move.letter === letter)
    .map((move) => `H${xOf(moveQuarters(part, move))}V${levelOf(letter, move.to)}`);
  return `M${LEFT} ${levelOf(letter, initial[letter])}${steps.join('')}H${xOf(lengthQuarters(part))}`;
};

/** What the notes ask of a pedal, as the data of one path of ticks; a trill or tremolo asks for a stretch. */
export const needTicks = (
  needs: readonly PedalNeed[],
  letter: Letter,
  xOf: (quarters: number) => number,
): string =>
  needs
    .filter((need) => need.letter === letter)
    .map(({ position, onsetQuarters, heldUntilQuarters }) => {
      const y = levelOf(letter, position);
      const held =
        heldUntilQuarters > onsetQuarters ? `M${xOf(onsetQuarters)} ${y}H${xOf(heldUntilQuarters)}` : '';
      return `M${xOf(onsetQuarters)} ${y - 3}v6${held}`;
    })
    .join('');

/** The score time of a finding, in quarters. */
export const findingQuarters = (
  part: PlannedPart,
  { bar, beat }: Pick<PedalFinding, 'bar' | 'beat'>,
): number => {
  const { onsetQuarters, beatQuarters } = part.bars[bar]!;
  return onsetQuarters + (toNumber(beat) - 1) * beatQuarters;
};

/** Px from the left of the chart for a score time in quarters. */
export type XOf = (quarters: number) => number;

/** The bar in which a score time falls: an index; the first or the last for a time outside. */
export const barAt = ({ bars }: Pick<PlannedPart, 'bars'>, quarters: number): number =>
  Math.max(
    0,
    bars.findLastIndex(({ onsetQuarters }) => onsetQuarters <= quarters),
  );
