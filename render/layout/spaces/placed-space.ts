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
