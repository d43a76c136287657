import { compare, type Rational } from '../../../music/rational.ts';
import type { PhraseMark } from '../../model/between-notes.ts';
import type { PlacedNote } from './placed-note.ts';

/** More slurs are hardly open at once under one number. */
const MOST_OPEN = 10;

/**
 * Slurs, and the signs that stop the music at a note. A slur joins two ends of one number, of the same voice before
 * others; an end without its other is passed over, since no note depends on it.
 *
 * @param notes in order of time
 */
export const findPhrases = (notes: readonly PlacedNote[]): readonly PhraseMark[] => {
  const found: PhraseMark[] = [];
  const open = new Map<string, PlacedNote[]>();
  for (const note of notes) {
    const { stops, slurs } = note.raw.marks;
    for (const kind of stops) found.push({ kind, start: note.onset, last: note.onset, end: note.end });
    if (slurs.length === 0) continue;
    for (const { number } of slurs.filter(({ type }) => type === 'stop')) {
      const starts = open.get(number) ?? [];
      const ownVoice = starts.findIndex(({ raw }) => raw.voice === note.raw.voice);
      const [from] = starts.splice(Math.max(0, ownVoice), 1);
      if (from !== undefined)
        found.push({ kind: 'slur', start: from.onset, last: note.onset, end: note.end });
    }
    for (const { number } of slurs.filter(({ type }) => type === 'start')) {
      const starts = open.get(number) ?? [];
      open.set(number, starts);
      if (starts.length < MOST_OPEN) starts.push(note);
    }
  }
  return found.sort(byTime);
};

const byTime = (a: { readonly start: Rational }, b: { readonly start: Rational }): number =>
  compare(a.start, b.start);
