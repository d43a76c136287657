import { type Letter, letterAtStep, type Pitch, stepOf } from '../../music/pitch.ts';
import { compare, type Rational } from '../../music/rational.ts';
import type { Note, Score } from '../../score/model.ts';
import { isPlucked } from '../../score/plucked.ts';
import {
  findPluckings,
  findSlidNotes,
  type Need,
  ornamentPlucking,
  type Plucking,
  releaseTimes,
  writtenString,
} from '../../sounding/needs.ts';
import type { SweepSetting } from '../../sounding/sweep-setting.ts';
import type { Hand } from '../model.ts';

/** A pitch that a note asks the harp for, whatever the tuning. */
export interface AskedPitch {
  readonly note: Note;
  readonly pitch: Pitch;
  readonly kind: Need['kind'];
  /** The note with which the plucking begins: itself, or the first of a tremolo between two. */
  readonly first: Note;
  readonly onset: Rational;
  /** Plucked again and again (trill, tremolo, glissando) until here; equal to `onset` for one pluck. */
  readonly heldUntil: Rational;
  /** End of the notated sound, ties counted. */
  readonly release: Rational;
}

/** The upper staff is the right hand's; the others are the left hand's. */
export const handOf = (note: Note): Hand => (note.staff === 1 ? 'right' : 'left');

/**
 * Lists every pitch that is plucked, brought in by an ornament, swept over or slid to; a string of the user's choice
 * stands instead of the written one. Notes of cues and notes left out ask for nothing, tied notes ring on.
 */
export const listAskedPitches = (
  score: Score,
  sweeps: readonly SweepSetting[],
  respelled: ReadonlyMap<string, Pitch>,
  leftOut: ReadonlySet<string>,
): AskedPitch[] => {
  const release = releaseTimes(score.notes);
  const pluckingOf = findPluckings(score.notes, release);
  const slid = findSlidNotes(score, leftOut);
  const asked: AskedPitch[] = [];
  for (const note of score.notes) {
    if (!isPlucked(note) || leftOut.has(note.id)) continue;
    const plucking = pluckingOf(note);
    asked.push({
      note,
      pitch: respelled.get(note.id) ?? writtenString(note),
      kind: slid.has(note.id) ? 'slid' : 'plucked',
      ...timesOf(plucking),
    });
    for (const pitch of [note.ornament?.upper, note.ornament?.lower]) {
      const times = timesOf(ornamentPlucking(note, plucking.release));
      if (pitch) asked.push({ note, pitch, kind: 'implied', ...times });
    }
  }
  for (const swept of sweeps) {
    if (!leftOut.has(swept.from.id)) asked.push(...sweptPitches(swept, release.get(swept.to.id)!));
  }
  return asked.sort((a, b) => compare(a.onset, b.onset));
};

const timesOf = ({ first, at: onset, until: heldUntil, release }: Plucking) => ({
  first,
  onset,
  heldUntil,
  release,
});

/** A glissando asks every string between its ends. */
const sweptPitches = ({ sweep, from, to, setting }: SweepSetting, release: Rational): AskedPitch[] => {
  const ends = [stepOf(from.pitch), stepOf(to.pitch)];
  const [lowest, highest] = [Math.min(...ends), Math.max(...ends)];
  return Array.from({ length: highest - lowest + 1 }, (_, i) => {
    const string: { readonly letter: Letter; readonly octave: number } = letterAtStep(lowest + i);
    return {
      note: from,
      first: from,
      pitch: { ...string, alter: setting[string.letter] },
      kind: 'swept',
      onset: sweep.start,
      heldUntil: sweep.end,
      release,
    };
  });
};
