import { callMeant, type ToldOrnament } from '../../findings/help/note-help.ts';
import { nameOrnament } from '../../findings/ornament-notes.ts';
import { isSamePitch, pitchName } from '../../music/pitch.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { writtenString } from '../../sounding/needs.ts';
import { twinToTell } from './beats-to-tell.ts';

/**
 * A note by its name alone, and where that does not say which note it is, or what goes with it, in the words of the fixes:
 * “D♯2”, “the main note D♯2”, “the trill on D5 with E♭5”.
 *
 * @param among the notes that are told with it: twins of its name are told apart only from others
 */
export const nameMeant = (score: Score, note: Note, among: readonly Note[] = [note]): string => {
  const name = writtenString(note);
  const alike = among.filter(
    (other) =>
      other.bar === note.bar &&
      (other.grace === null) === (note.grace === null) &&
      isSamePitch(writtenString(other), name),
  );
  const meant = {
    from: [name],
    isGrace: note.grace !== null,
    twin: twinToTell(score, name, alike),
    ornament: ornamentToTell(note),
  };
  const isNameEnough = !meant.isGrace && meant.twin === null && meant.ornament === null;
  return isNameEnough ? pitchName(name) : callMeant(meant);
};

/** What a note’s ornament brings in, which goes with it; null where that is nothing. */
export const ornamentToTell = (note: Note): ToldOrnament | null => {
  const neighbours = [note.ornament?.upper, note.ornament?.lower].flatMap((each) => each ?? []);
  return neighbours.length === 0 ? null : { what: nameOrnament(note), neighbours };
};
