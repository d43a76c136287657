import { createLineMemory, type LineMemory } from '../lines/line-memory.ts';
import { createDrawingMemory, type DrawingMemory } from './drawing-memory.ts';
import { type Engraver, startEngraver } from './verovio.ts';

/** What draws: the layout, and what it has drawn before. */
export interface Drawer {
  readonly engraver: Engraver;
  readonly memory: DrawingMemory;
  readonly lines: LineMemory;
}

/** Files that were converted, and what was measured. A hundred bars have about half a million. */
const MOST_CHARACTERS_MEASURED = 8_000_000;

/** A score of a hundred bars has about four million, all that is held of a line counted; a character takes a byte. */
const MOST_CHARACTERS_DRAWN = 48_000_000;

/** Starts a layout engine of its own, with nothing in its memory. */
export const startDrawer = async (): Promise<Drawer> => drawWith(await startEngraver());

/** A drawer with nothing in its memory. */
export const drawWith = (engraver: Engraver): Drawer => ({
  engraver,
  memory: createDrawingMemory(MOST_CHARACTERS_MEASURED),
  lines: createLineMemory(MOST_CHARACTERS_DRAWN),
});
