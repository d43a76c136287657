import { add, compare, type Rational, rational } from '../../music/rational.ts';

/** What tells whether notes run on from one to the next. */
export interface RunNote {
  readonly onset: Rational;
  readonly duration: Rational;
  readonly grace: object | null;
}

const QUARTER = rational(1);

/** The notes of a run are grace notes, or shorter than a quarter note. */
export const isSmall = ({ duration, grace }: RunNote): boolean =>
  grace !== null || compare(duration, QUARTER) < 0;

/** Whether a note begins where the one before ends; grace notes take no time. */
export const isJoined = (note: RunNote, next: RunNote): boolean =>
  compare(add(note.onset, note.duration), next.onset) === 0;
