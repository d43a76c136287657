import type { PositionName } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';

/** A place in a score as people name it: a printed bar by its index, and the beat from 1 as a fraction: `5/2`. */
export interface Place {
  readonly bar: number;
  readonly beat: string;
}

/** Something about the plan that the user fixed. */
export type PlacedPin =
  /** The pedal stands so from one place until just before another, or to the end. */
  | {
      readonly kind: 'position';
      readonly pedal: Letter;
      readonly position: PositionName;
      readonly from: Place;
      readonly until: Place | null;
    }
  /** The pedal moves to this position exactly here. */
  | {
      readonly kind: 'move';
      readonly pedal: Letter;
      readonly position: PositionName;
      readonly at: Place;
    }
  /** No pedal moves in this span. */
  | { readonly kind: 'forbid'; readonly from: Place; readonly until: Place };

/** The notes that are written for one string (`C♯4`) and begin at one place. */
export interface NotesAt extends Place {
  readonly pitch: string;
  /** Those of one staff alone, the upper being 1: told where both hands have the pitch at once. */
  readonly staff?: number;
}

/**
 * What a user decided about a part beyond options: it can be sent with a score, kept in a browser, and saved into the
 * score file. Notes and places are told by bar, beat and pitch, so that it outlives changes elsewhere in the file.
 */
export interface Work {
  readonly pins: readonly PlacedPin[];
  /** Notes to be played on the string of another name. */
  readonly respell: readonly (NotesAt & { readonly to: string })[];
  /** Notes that the player leaves out. */
  readonly leaveOut: readonly NotesAt[];
  /** Places where a full setting is printed, or is not, whatever the occasions say. */
  readonly settingsAt: readonly (Place & { readonly print: boolean })[];
}

/** One list of a work. */
export type WorkList = keyof Work;

export const WORK_LISTS = [
  'pins',
  'respell',
  'leaveOut',
  'settingsAt',
] as const satisfies readonly WorkList[];

/** How much a work may hold: far more than any part asks for, little enough to be read in no time. */
export const WORK_LIMITS = { entries: 10_000, bar: 1_000_000, pitchLength: 40, staff: 99 } as const;

/** How beats and score times are written: a whole number or a fraction. */
export const BEAT_TEXT = /^\d{1,9}(\/[1-9]\d{0,5})?$/;

export const NO_WORK: Work = { pins: [], respell: [], leaveOut: [], settingsAt: [] };

export const isWorkEmpty = (work: Work): boolean => WORK_LISTS.every((list) => work[list].length === 0);
