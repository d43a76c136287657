import { PADDING_VU } from '../../draw/drawing.ts';
import type { PlacedPlaceholder } from '../../draw/find-placeholders.ts';
import type { Box } from '../../text/outline.ts';
import type { ReservedSpace } from './reserve-spaces.ts';

/** A room where the layout has put it. */
export interface PlacedSpace {
  readonly room: ReservedSpace;
  /** The drawing's own box, in the page's units. */
  readonly box: Box;
  readonly placeholder: PlacedPlaceholder;
}

/** The box of a drawing's ink: what is left of its room inside the clear space. */
export const inkOf = ({ x0, y0, x1, y1 }: Box, unitsPerVu: number): Box => {
  const clear = PADDING_VU * unitsPerVu;
  return { x0: x0 + clear, y0: y0 + clear, x1: x1 - clear, y1: y1 - clear };
};

/** From the side of a large drawing to a letter beside it, in vu: closer they would read as one. */
const BESIDE_LARGE_VU = 1;

/** What nothing else may stand on: the ink of a drawing; of the large ones before the first note, what is beside it too. */
export const claimOf = ({ room, box }: Pick<PlacedSpace, 'room' | 'box'>, unitsPerVu: number): Box => {
  const ink = inkOf(box, unitsPerVu);
  if (room.line !== 'start') return ink;
  const beside = BESIDE_LARGE_VU * unitsPerVu;
  return { ...ink, x0: ink.x0 - beside, x1: ink.x1 + beside };
};
