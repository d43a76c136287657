import { PADDING_VU } from '../../draw/drawing.ts';
import type { PlacedPlaceholder } from '../../draw/find-placeholders.ts';
import { moveBox } from '../../geometry/drawn-groups.ts';
import { widenBox } from '../../geometry/outline-boxes.ts';
import type { Box } from '../../text/outline.ts';
import type { PlacedInk } from './overlaps.ts';
import type { ReservedSpace } from './reserve-spaces.ts';

/** A room where the layout has put it. */
export interface PlacedSpace {
  readonly room: ReservedSpace;
  /** The drawing's own box, in the page's units: higher than its room where words under a letter were set lower. */
  readonly box: Box;
  readonly placeholder: PlacedPlaceholder;
  /** How far to the right of their place in the drawing words stand, in the page's units. */
  readonly wordsAside?: number;
}

/** A drawing moved by so much, in the page's units. */
export const shiftSpace = (placed: PlacedSpace, dx: number, dy: number): PlacedSpace => ({
  ...placed,
  box: moveBox(placed.box, { x: dx, y: dy }),
});

/** How much lower than in their drawing words stand, in vu. */
export const wordsDownOf = ({ room, box }: Pick<PlacedSpace, 'room' | 'box'>, unitsPerVu: number): number =>
  room.headVu === undefined ? 0 : (box.y1 - box.y0) / unitsPerVu - room.box.heightVu;

/** The box of a drawing's ink: what is left of its room inside the clear space. */
export const inkOf = ({ x0, y0, x1, y1 }: Box, unitsPerVu: number): Box => {
  const clear = PADDING_VU * unitsPerVu;
  return { x0: x0 + clear, y0: y0 + clear, x1: x1 - clear, y1: y1 - clear };
};

/** A letter, and the words under it, which may reach farther and stand lower. */
export interface HeadAndWords {
  readonly head: Box;
  /** Null where there are none. */
  readonly words: Box | null;
}

/** The ink of what has words under it, in two boxes. */
export const headAndWords = (
  {
    room: { headVu, startVu = 0, endVu, box: size },
    box,
    wordsAside = 0,
  }: Pick<PlacedSpace, 'room' | 'box' | 'wordsAside'>,
  unitsPerVu: number,
): HeadAndWords => {
  if (headVu === undefined) return { head: inkOf(box, unitsPerVu), words: null };
  const clear = PADDING_VU * unitsPerVu;
  const ink = inkOf(box, unitsPerVu);
  return {
    head: {
      x0: box.x0 + startVu * unitsPerVu + clear,
      y0: ink.y0,
      x1: box.x0 + (endVu ?? size.widthVu) * unitsPerVu - clear,
      y1: box.y0 + headVu * unitsPerVu - clear,
    },
    words: {
      ...{ x0: ink.x0 + wordsAside, x1: ink.x1 + wordsAside },
      ...{ y0: box.y1 - (size.heightVu - headVu) * unitsPerVu, y1: ink.y1 },
    },
  };
};

/** The boxes of {@link headAndWords} that there are. */
export const inksOf = (
  placed: Pick<PlacedSpace, 'room' | 'box' | 'wordsAside'>,
  unitsPerVu: number,
): readonly Box[] => {
  const { head, words } = headAndWords(placed, unitsPerVu);
  return words === null ? [head] : [head, words];
};

/** From the side of a large drawing to a letter beside it, in vu: closer they would read as one. */
const BESIDE_LARGE_VU = 1;

/** What overlaps are looked for with; of the large drawings before the first note, what is beside them too. */
export const placedInks = (placed: PlacedSpace, unitsPerVu: number): readonly PlacedInk[] => {
  const { id, line } = placed.room;
  const beside = line === 'start' ? BESIDE_LARGE_VU * unitsPerVu : 0;
  return inksOf(placed, unitsPerVu).map((ink) => ({
    id,
    ink: widenBox(ink, beside),
    row: line,
  }));
};
