import type { Letter } from '../music/pitch.ts';

/** A place in a score as people name it: a printed bar by its index, and the beat from 1 as a fraction: `5/2`. */
export interface Place {
  readonly bar: number;
  readonly beat: string;
}

export type PositionName = 'flat' | 'natural' | 'sharp';

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

/** The notes of one written pitch (`C♯4`) that begin at one place. */
export interface NotesAt extends Place {
  readonly pitch: string;
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

export const NO_WORK: Work = { pins: [], respell: [], leaveOut: [], settingsAt: [] };
