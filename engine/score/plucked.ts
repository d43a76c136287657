import { compare } from '../music/rational.ts';
import type { Note } from './model/note.ts';

/**
 * Whether the harp plucks a note: not one of another instrument's cue, nor one that a tie prolongs. A trill, tremolo or
 * other ornament on a tied note plucks its string anew.
 */
export const isPlucked = ({ role, tiedFrom, ornament, tremolo }: Note): boolean =>
  role !== 'cue' && (tiedFrom === null || ornament !== null || tremolo !== null);

/** Whether two notes are of one stroke: at one time, and at one place among the grace notes there if they are grace notes. */
const arePluckedTogether = (a: Note, b: Note): boolean =>
  compare(a.onset, b.onset) === 0 && (a.grace?.order ?? null) === (b.grace?.order ?? null);

/** Whether a note is plucked when another is, or, if that is a grace note, when the note is that it leads to. */
export const isPluckedWith = (other: Note, note: Note): boolean =>
  arePluckedTogether(other, note) || (other.grace === null && compare(other.onset, note.onset) === 0);

/** Whether a note belongs to a chord that is broken: one string after the other. */
export const isArpeggiated = ({ arpeggio }: Note): boolean => arpeggio !== null && arpeggio !== 'none';
