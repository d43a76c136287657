import type { Edit } from '../edit.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { Footnote } from '../part/texts/long-directions.ts';
import type { PageLayout } from './breaks/page-layout.ts';
import type { LayoutMei } from './document/layout-mei.ts';
import type { PartRequest } from './document/prepared-part.ts';
import type { ReservedSpace } from './spaces/reserve-spaces.ts';

/** Where the harp comes in after a rest long enough for a setting of the pedals. Bars are indices. */
export interface EntryAfterRest {
  /** In which it comes in. */
  readonly bar: number;
  /** In which the last setting before is told. */
  readonly told: number;
  /** Whether that is so far before that even on the line before it is lost sight of. */
  readonly isForgotten: boolean;
}

/** What is laid out. */
export interface LayoutRequest extends PartRequest {
  readonly engraving: EngravingOptions;
  readonly layout: PageLayout;
  /** Whether somebody waits for the first page while others are not laid out. */
  readonly early: boolean;
  /** What is to be set as notes of the layout's own document. */
  readonly signEdits: (mei: LayoutMei) => readonly Edit[];
  /** The ids of these notes. */
  readonly signIds: ReadonlySet<string>;
  /** Where the setting is told once more, if a page or a line parts the place from where it is told. */
  readonly entries: readonly EntryAfterRest[];
  /**
   * The rooms wanted, given the bars (indices) at whose start a setting is printed in any case.
   *
   * @param until a bar: only those before it
   */
  readonly spacesFor: (reminders: readonly number[], until?: number) => readonly ReservedSpace[];
  /** Height (in the page's units) of what stands under the last line, given the same bars and the notes of the file. */
  readonly under: (reminders: readonly number[], footnotes: readonly Footnote[]) => number;
}
