import { type Drawing, PADDING_VU } from '../../draw/drawing.ts';
import type { Stretch } from '../../geometry/page-systems.ts';
import type { PlaceholderAnchor } from './placeholder.ts';

/**
 * How something of ours stands to its moment: it ends before what sounds there, begins there, or has its middle there.
 *
 * A change is written where the foot moves, before the note that needs it (common practice, no source).
 */
export type Stance = 'before' | 'from' | 'over';

/** What decides from left to right where a drawing stands. */
export interface Standing {
  readonly stance: Stance;
  /** Ids of the notes or rests that begin at its moment. */
  readonly begins: readonly string[];
  /** Ids of the notes that it ends before; empty where it may reach under them. */
  readonly endsBefore: readonly string[];
  /** Whether it must begin in its bar, and whether it must end there. */
  readonly beginsInBar: boolean;
  readonly endsInBar: boolean;
}

/** The edge of a placeholder that the layout sets at the moment. */
export const EDGE_AT_MOMENT = {
  before: 'right',
  from: 'left',
  over: 'centre',
} as const satisfies Readonly<Record<Stance, PlaceholderAnchor['align']>>;

/**
 * Room that the layout keeps free between a drawing and its anchor, the middle of the notehead, in vu: half the width
 * of a whole note (SMuFL metadata of Bravura: noteheadWhole is 1.688 spaces wide).
 */
export const clearOfNote = (stance: Stance): number => (stance === 'before' ? 1.7 : 0);

/** From a bar line to what is written beside it. */
const BAR_LINE_VU = 0.8;

/** What is blank at the left of a drawing: its padding, and the space that a letter has before it (measured: below 0.4). */
const BLANK_VU = PADDING_VU + 0.4;

/** Where things stand on the page, in its units. */
export interface Surroundings {
  /** The bar in which a drawing was laid out; undefined where it stands outside all. */
  readonly bar: Stretch | undefined;
  /** The left edge of a note or rest, by its id. */
  readonly leftEdges: ReadonlyMap<string, number>;
  readonly unitsPerVu: number;
}

/**
 * The left edge of a drawing: left of the notes that it belongs before, so that no reader takes it for what already
 * sounds, and within its bar where it must be.
 *
 * @param laidX0 where the layout has put its left edge
 * @param width of all of it: words under a letter may reach farther than the letter, under the note that it ends before and
 * over the end of its bar, since a letter pushed aside by its words would be read at another beat
 */
export const standingX0 = (
  {
    stance,
    begins,
    endsBefore,
    beginsInBar,
    endsInBar,
    startVu = 0,
    endVu,
    tailVu = 0,
  }: Standing & Pick<Drawing, 'startVu' | 'endVu' | 'tailVu'>,
  laidX0: number,
  width: number,
  { bar, leftEdges, unitsPerVu }: Surroundings,
): number => {
  const own = endVu === undefined ? width : endVu * unitsPerVu;
  const leftmost = (ids: readonly string[]): number =>
    Math.min(...ids.flatMap((id) => leftEdges.get(id) ?? []), Number.POSITIVE_INFINITY);
  const end = leftmost(endsBefore) + tailVu * unitsPerVu;
  const gap = BAR_LINE_VU * unitsPerVu;
  const start =
    stance === 'from'
      ? Math.min(laidX0, leftmost(begins) - BLANK_VU * unitsPerVu) - startVu * unitsPerVu
      : laidX0;
  const before = stance === 'before' && Number.isFinite(end) ? end - own : Math.min(start, end - own);
  if (bar === undefined) return before;
  const ended = endsInBar ? Math.min(before, bar.x1 - gap - own) : before;
  return beginsInBar ? Math.max(ended, bar.x0 + gap) : ended;
};
