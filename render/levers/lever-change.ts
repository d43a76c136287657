import type { HarpString, OneTime, Side } from '../../engine/index.ts';

/** One lever of a change as printed: the string, and what it gives from here on. */
export interface LeverChange {
  readonly string: HarpString;
  /** Semitones above the natural of its letter. */
  readonly alter: number;
}

/** A change that is told by name. */
export interface LeverNameChange extends LeverChange {
  /** The hand that sets the lever. */
  readonly hand: Side;
}

/** A change that is needed at one time of playing alone. */
export interface TimedLeverChange extends LeverNameChange {
  readonly time: OneTime;
  /** Made at another time it would cost a note or another change; else it would only be for nothing. */
  readonly isBinding: boolean;
}

/** A change that is told in words too: which hand sets the lever which way. */
export interface ToldLeverChange extends LeverNameChange {
  readonly to: 'up' | 'down';
}

/** A change that is shown as a small note on the string's line, before a note, chord or rest of the score. */
export interface LeverNote extends LeverChange {
  /** The layout's id of the small note. */
  readonly id: string;
  /** Id of the note or rest that it stands before. */
  readonly host: string;
}

/** The changes of one moment as names that we draw, or as small notes that the layout sets. */
export type LeverChangeMark =
  | {
      readonly kind: 'lever-change';
      readonly changes: readonly LeverNameChange[];
      /** Changes for a player who comes back here; for the first time the levers stand there already. */
      readonly onReturn: readonly LeverNameChange[];
      /** Of `changes`, those that are needed at one time of playing alone, each with that time. */
      readonly atOneTime: readonly TimedLeverChange[];
      /** What is told in words too: all that moves here, where the player meets one of them for the first time. */
      readonly inWords: readonly ToldLeverChange[];
      /** Ids of the notes that need it, each string's first, where none sounds at its moment; else null. */
      readonly neededLaterBy: readonly string[] | null;
    }
  | { readonly kind: 'lever-notes'; readonly changes: readonly LeverNote[] };
