import type { HarpPart, HarpPlan, Score } from '../../engine/index.ts';
import type { EngravingOptions } from '../engraving-options.ts';
import type { StaffRange } from '../layout/spaces/reserve-spaces.ts';
import { markingsFor, type PrintedMarking } from '../markings/printed-markings.ts';
import type { SpaceDrawing } from './finish-system.ts';
import type { ClosingSection } from './words/closing-notes.ts';

/** One harp's part with its plan, to be drawn under or over others. */
export interface PlannedHarp {
  readonly score: Score;
  readonly plan: HarpPlan;
  readonly engraving: EngravingOptions;
}

/** Whether markings are shown, or a pupil is to write them. */
export type Shown = 'all' | EngravingOptions['blanks'];

/** A planned part as it stands on the pages. */
export interface PlacedHarp extends PlannedHarp {
  readonly shown: Shown;
  readonly staves: StaffRange;
  /** Set before the ids of its markings. */
  readonly prefix: string;
}

/** What is drawn: the staves of one harp or of several. */
export interface DrawnScore {
  readonly score: Score;
  readonly harps: readonly HarpPart[];
  readonly others: ReadonlySet<string>;
  readonly parts: readonly PlacedHarp[];
}

/** What stands on pages besides a plan: drawings in the music, and words after it. */
export interface PageNotes {
  /** How many pages stand before these in what is bound: none if not given, null where that has page numbers of its own. */
  readonly pagesBefore?: number | null;
  readonly drawings: readonly SpaceDrawing[];
  readonly sections: readonly ClosingSection[];
}

/** A part's markings, under ids that no other part on the pages has. */
export const markingsOf = (
  { score, plan, engraving, prefix }: PlacedHarp,
  reminders: readonly number[],
): readonly PrintedMarking[] =>
  markingsFor(score, plan, engraving, reminders).map((marking) => ({
    ...marking,
    id: prefix + marking.id,
  }));
