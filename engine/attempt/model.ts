import type { Position } from '../harp/setting.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import type { Unease } from '../proof/comfort.ts';
import type { RedundantMarking } from '../proof/marking-faults.ts';
import type { FixPlace } from '../proof/model.ts';

/** What is thought of a change that a pupil has written or left out. */
export const VERDICTS = ['right', 'better-place', 'wrong', 'missing', 'needless'] as const;

/** One of them. */
export type Verdict = (typeof VERDICTS)[number];

/** A pedal in a position. */
export interface StatedPedal {
  readonly letter: Letter;
  readonly position: Position;
}

/** A note that sounds otherwise than written. */
export interface WrongSound {
  /** As it is written, and the bar and beat of it. */
  readonly pitch: Pitch;
  readonly place: FixPlace;
  /** What its string gives instead; null where nothing says where the pedal stands. */
  readonly instead: Pitch | null;
}

/** What belongs there instead of what was written. */
export type Correction =
  | { readonly kind: 'write'; readonly pedals: readonly StatedPedal[] }
  | { readonly kind: 'move'; readonly to: FixPlace }
  | { readonly kind: 'strike' };

/** One thing that was asked of the pupil: the opening setting as a whole, or one change of one pedal. */
export interface JudgedChange extends FixPlace {
  readonly kind: 'opening' | 'change';
  /** What was written, or for a missing one what is to be written. */
  readonly pedals: readonly StatedPedal[];
  readonly verdict: Verdict;
  /** Index of the marking in the file; null for a missing one. */
  readonly marking: number | null;
  /** Of wrong and missing ones: the first notes that go wrong. */
  readonly sounds: readonly WrongSound[];
  /** Of wrong ones. */
  readonly correction: Correction | null;
  /** The foot has no time for it where it stands. */
  readonly tooQuick: boolean;
  /** Of those that had better stand elsewhere. */
  readonly better: { readonly to: FixPlace; readonly why: Unease } | null;
  /** Of needless ones. */
  readonly needless: RedundantMarking['why'] | null;
}

/** A pupil's markings, judged. */
export interface JudgedAttempt {
  /** In order of place. */
  readonly changes: readonly JudgedChange[];
  readonly points: Points;
}

/** Counted points: those that the attempt has, and those that it could have. */
export interface Points {
  readonly given: number;
  readonly most: number;
}
