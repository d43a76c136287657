import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';
import type { MarkingWindow, Statement } from './letter-track.ts';

/** One change to what is said of one pedal. */
export type LetterEdit =
  | {
      readonly kind: 'add';
      readonly letter: Letter;
      readonly position: Position;
      readonly window: MarkingWindow;
    }
  | { readonly kind: 'alter'; readonly statement: Statement; readonly position: Position }
  | { readonly kind: 'move'; readonly statement: Statement; readonly window: MarkingWindow }
  | { readonly kind: 'remove'; readonly statement: Statement };

/** What the search takes as given besides the track. */
export interface GivenChanges {
  /** Statements that are as good as not there. */
  readonly without: readonly Statement[];
  /** What is said besides, free of charge. */
  readonly also: readonly GivenStatement[];
}

/** Something that is said at a place. */
export interface GivenStatement {
  readonly bar: number;
  readonly at: Rational;
  readonly position: Position;
  readonly inWords: boolean;
}

export const NOTHING_GIVEN: GivenChanges = { without: [], also: [] };

/**
 * Prices. No number of edits weighs as one note that is not served, and what makes an edit likely never as one edit
 * (common practice, no source): a wrong sign is more likely than a marking out of place, that than one left out, and
 * that than one too many.
 */
export const REPAIR_PRICES = {
  unmet: 1e10,
  edit: 1e6,
  alter: 10,
  alterEntry: 20,
  move: 20,
  add: 40,
  remove: 60,
  perBarMoved: 15,
  /** A change that is left though no note needs it, or though the pedal stands there. */
  needless: 400,
  repeated: 200,
  /** A glissando that sounds otherwise than its notes and the key say. */
  unlikeKey: 300,
} as const;

/** How many edits a cost stands for. */
export const editsIn = (cost: number): number => Math.floor(cost / REPAIR_PRICES.edit);
