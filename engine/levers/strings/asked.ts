import type { Side } from '../../harp/side.ts';
import { type Letter, letterAtStep, type Pitch, stepOf } from '../../music/pitch.ts';
import { compare, type Rational } from '../../music/rational.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { isPlucked } from '../../score/plucked.ts';
import type { SweepSetting } from '../../sounding/glissando-settings.ts';
import { findHands } from '../../sounding/hands.ts';
import {
  findPluckings,
  findSlidNotes,
  type Need,
  ornamentPlucking,
  type Plucking,
  writtenString,
} from '../../sounding/needs.ts';
import { releaseTimes } from '../../sounding/ties.ts';

/** A pitch that a note asks the harp for, whatever the tuning. */
export interface PitchNeed {
  readonly note: Note;
  /** The hand that plays it: as words, beams, stems or the staff tell. */
  readonly hand: Side;
  readonly pitch: Pitch;
  readonly kind: Need['kind'];
  /** The note with which the plucking begins: itself, or the first of a tremolo between two. */
  readonly startNote: Note;
  readonly onset: Rational;
  /** Plucked again and again (trill, tremolo, glissando) until here; equal to `onset` for one pluck. */
  readonly heldUntil: Rational;
  /** End of the notated sound, ties counted. */
  readonly release: Rational;
}

/**
 * Lists every pitch that is plucked, brought in by an ornament, swept over or slid to; a string of the user's choice
 * stands instead of the written one. Notes of cues and notes left out ask for nothing, tied notes ring on.
 */
export const listPitchNeeds = (
  score: Score,
  sweeps: readonly SweepSetting[],
  respelled: ReadonlyMap<string, Pitch>,
  omitted: ReadonlySet<string>,
): PitchNeed[] => {
  const release = releaseTimes(score.notes);
  const pluckingOf = findPluckings(score.notes, release);
  const slid = findSlidNotes(score, omitted);
  const hands = findHands(score.notes.filter(({ role }) => role !== 'cue'));
  const needs: PitchNeed[] = [];
  for (const note of score.notes) {
    if (!isPlucked(note) || omitted.has(note.id)) continue;
    const plucking = pluckingOf(note);
    const { hand } = hands.get(note.id)!;
    needs.push({
      note,
      hand,
      pitch: respelled.get(note.id) ?? writtenString(note),
      kind: slid.has(note.id) ? 'slid' : 'plucked',
      ...timesOf(plucking),
    });
    for (const pitch of [note.ornament?.upper, note.ornament?.lower]) {
      const times = timesOf(ornamentPlucking(note, plucking.release));
      if (pitch) needs.push({ note, hand, pitch, kind: 'implied', ...times });
    }
  }
  for (const swept of sweeps) {
    if (omitted.has(swept.from.id)) continue;
    const { hand } = hands.get(swept.from.id)!;
    needs.push(...sweptPitches(swept, hand, release.get(swept.to.id)!));
  }
  return needs.sort((a, b) => compare(a.onset, b.onset));
};

const timesOf = ({ startNote, at: onset, until: heldUntil, release }: Plucking) => ({
  startNote,
  onset,
  heldUntil,
  release,
});

/** A glissando asks every string from its first up or down to its arrival, which is plucked after it. */
const sweptPitches = (
  { sweep, from, to, setting }: SweepSetting,
  hand: Side,
  release: Rational,
): PitchNeed[] => {
  const [first, arrival] = [stepOf(from.pitch), stepOf(to.pitch)];
  const lowest = Math.min(first, arrival + 1);
  return Array.from({ length: Math.abs(arrival - first) }, (_, i) => {
    const string: { readonly letter: Letter; readonly octave: number } = letterAtStep(lowest + i);
    return {
      note: from,
      hand,
      startNote: from,
      pitch: { ...string, alter: setting[string.letter] },
      kind: 'swept',
      onset: sweep.start,
      heldUntil: sweep.end,
      release,
    };
  });
};
