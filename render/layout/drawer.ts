import { createDrawingMemory, type DrawingMemory } from './drawing-memory.ts';
import { createPartMemory, type PartMemory } from './part-memory.ts';
import { type Engraver, startEngraver } from './verovio.ts';

/** What draws: the layout, and what it has drawn before. */
export interface Drawer {
  readonly engraver: Engraver;
  readonly memory: DrawingMemory;
  readonly parts: PartMemory;
}

/** A score of a hundred bars has about three million; a character takes a byte or two. */
const MOST_CHARACTERS_KEPT = 24_000_000;

/** Starts a layout engine of its own, with nothing in its memory. */
export const startDrawer = async (): Promise<Drawer> => drawWith(await startEngraver());

/** A drawer with nothing in its memory. */
export const drawWith = (engraver: Engraver): Drawer => ({
  engraver,
  memory: createDrawingMemory(MOST_CHARACTERS_KEPT),
  parts: createPartMemory(),
});
