import { PADDING_VU } from '../draw/art.ts';
import type { PlacedPlaceholder } from '../draw/page-art.ts';
import type { Box } from '../text/outline.ts';
import type { Room } from './placeholder-edits.ts';

/** A room where the layout has put it. */
export interface PlacedRoom {
  readonly room: Room;
  /** The drawing's own box, in the page's units. */
  readonly box: Box;
  readonly placeholder: PlacedPlaceholder;
  /** Index of the system on its page. */
  readonly system: number;
}

/** The box of a drawing's ink: what is left of its room inside the clear space. */
export const inkOf = ({ x0, y0, x1, y1 }: Box, unitsPerVu: number): Box => {
  const clear = PADDING_VU * unitsPerVu;
  return { x0: x0 + clear, y0: y0 + clear, x1: x1 - clear, y1: y1 - clear };
};
