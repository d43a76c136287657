import { group } from 'd3-array';
import { add, compare, equals, type Letter, type Move, type Plan, type Score } from '../../engine/index.ts';

/**
 * The moves that the feet must make at the very moment of the note: a note on a string of the same pedal lasts, as
 * written, until the one begins that needs the new position.
 */
export const movesWithTheirNotes = (score: Score, { moves, respellings }: Plan): ReadonlySet<Move> => {
  const strings = new Map(respellings.map(({ note, to }) => [note, to.letter]));
  const played = score.notes.filter(({ role, grace }) => role !== 'cue' && grace === null);
  const notesOf = group(
    played,
    ({ id, harmonic, pitch }) => strings.get(id) ?? (harmonic?.string ?? pitch).letter,
  );
  const found = new Set<Move>();
  for (const [letter, own] of group(moves, (move): Letter => move.letter)) {
    const notes = notesOf.get(letter) ?? [];
    let next = 0;
    let end = score.bars[0]!.onset;
    for (const move of own) {
      for (; next < notes.length && compare(notes[next]!.onset, move.at) < 0; next += 1) {
        const release = add(notes[next]!.onset, notes[next]!.duration);
        if (compare(release, end) > 0) end = release;
      }
      const { after, before } = move.window;
      const isAtItsNote = before !== null && equals(before.onset, move.at);
      if (isAtItsNote && after !== null && compare(end, move.at) >= 0) found.add(move);
    }
  }
  return found;
};
