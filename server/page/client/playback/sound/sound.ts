import type { PlayedPluck, Side } from '../../../../../engine/index.ts';

/** What the player plays on; times in seconds of its own clock. */
export interface Sound {
  readonly now: () => number;
  readonly pluck: (pluck: PlayedPluck, at: number) => void;
  /** Stills the strings that were plucked for a staff; all where it is null. */
  readonly damp: (staff: number | null, at: number) => void;
  /** A foot moves a pedal, or a hand sets a lever. */
  readonly knock: (side: Side, at: number) => void;
  /** A stroke of the metronome. */
  readonly click: (isFirst: boolean, at: number) => void;
  /** Ends all that sounds and all that was to sound. */
  readonly silence: () => void;
}
