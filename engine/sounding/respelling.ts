import type { Pitch } from '../music/pitch.ts';

/** A note that is played on another string than written. */
export interface Respelling {
  readonly note: string;
  readonly from: Pitch;
  readonly to: Pitch;
}
