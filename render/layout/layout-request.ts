import type { HarpPart, Score } from '../../engine/index.ts';
import type { CuesToWrite } from '../cues/cue-edits.ts';
import type { Edit } from '../edit.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { PlayedNotes } from '../part/signs/note-looks.ts';
import type { Footnote } from '../part/texts/long-directions.ts';
import type { PageLayout } from './breaks/page-layout.ts';
import type { LayoutMei } from './layout-mei.ts';
import type { ReservedSpace, StaffRange } from './spaces/reserve-spaces.ts';

/** What is laid out. */
export interface LayoutRequest {
  readonly score: Score;
  /** The harps whose staves the score holds, from the top; for a part its own. */
  readonly harps: readonly HarpPart[];
  /** Ids of the notes that the player on whose staves they stand does not play. */
  readonly others: ReadonlySet<string>;
  readonly engraving: EngravingOptions;
  readonly layout: PageLayout;
  readonly played: PlayedNotes;
  /** What is to be set as notes of the layout's own document. */
  readonly signEdits: (mei: LayoutMei) => readonly Edit[];
  /** The ids of these notes. */
  readonly signIds: ReadonlySet<string>;
  /** The staves that are set in full size; others are there to be read along. */
  readonly full: StaffRange;
  /** What other parts play before entries of the harp. */
  readonly cues: CuesToWrite;
  /** The rooms wanted, given the bars (indices) at whose start a setting is printed in any case. */
  readonly spacesFor: (reminders: readonly number[]) => readonly ReservedSpace[];
  /** Height (in the page's units) of what stands under the last line, given the same bars and the notes of the file. */
  readonly under: (reminders: readonly number[], footnotes: readonly Footnote[]) => number;
}
