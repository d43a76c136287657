import { perObject } from '../memoize.ts';
import { add, compare, type Rational, ZERO } from '../music/rational.ts';
import type { Note } from '../score/model/note.ts';

/** By note id, the note with which its tie begins; itself where it is not tied to one before. Notes in order of onset. */
export const headsOfTies = perObject((notes: readonly Note[]): ReadonlyMap<string, Note> => {
  const heads = new Map<string, Note>();
  for (const note of notes) {
    heads.set(note.id, (note.tiedFrom === null ? undefined : heads.get(note.tiedFrom)) ?? note);
  }
  return heads;
});

/**
 * Ends of the notated sounds by note id, as the music is played: a tied chain lasts as long as its notes together,
 * and a tie into several endings as long as the longest of them. Notes in order of onset.
 */
export const releaseTimes = perObject((notes: readonly Note[]): ReadonlyMap<string, Rational> => {
  const release = new Map<string, Rational>();
  const longestTied = new Map<string, Rational>();
  for (const note of notes.toReversed()) {
    const length = add(note.duration, longestTied.get(note.id) ?? ZERO);
    release.set(note.id, add(note.onset, length));
    if (note.tiedFrom === null) continue;
    const known = longestTied.get(note.tiedFrom);
    if (known === undefined || compare(known, length) < 0) longestTied.set(note.tiedFrom, length);
  }
  return release;
});
