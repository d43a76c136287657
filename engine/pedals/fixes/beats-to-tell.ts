import type { TwinNote } from '../../findings/help/note-help.ts';
import type { FindingPlace } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { perObject } from '../../memoize.ts';
import { isSamePitch, type Pitch } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import { beatAt } from '../../score/bars/beats.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { writtenString } from '../../sounding/needs.ts';
import { headsOfTies } from '../../sounding/ties.ts';
import { formatBeat } from '../../words/format-beat.ts';

/**
 * The beats of some notes of one bar and name, as people say them, where that name and the place that it is told at do not
 * tell them: another note of the bar has it that is none of them, nor tied to one, or they begin at another beat than the
 * place.
 *
 * @param at the place (its bar an index) that stands before the words; null where bars alone do
 * @returns each beat once, in order; none where the name is enough
 */
export const beatsToTell = (
  score: Score,
  name: Pitch,
  notes: readonly Note[],
  at: Pick<FindingPlace, 'bar' | 'beat'> | null,
): readonly string[] => {
  const { bar } = notes[0]!;
  const beats = notes.map(({ onset }) => beatAt(score.bars[bar]!, onset)).sort(compare);
  const isAtPlace = at === null || (bar === at.bar && beats.every((beat) => compare(beat, at.beat) === 0));
  const hasOthers = othersOfName(score, name, notes).length > 0;
  const told = [...new Set(beats.map((beat) => formatBeat(beat)))];
  const isNameEnough = !hasOthers && (isAtPlace || told.length > MOST_BEATS);
  return isNameEnough ? [] : told;
};

/** Beats that are told of notes which are all of their name in the bar: of more, their number says as much. */
const MOST_BEATS = 4;

/**
 * Which notes are meant where each has one other note of its name at its beat, so that no beat tells them apart: by their
 * staff if the others are on the other one, and as main notes beside grace notes that lead to them.
 *
 * @returns null where the beats are enough, or no words for it are true
 */
export const twinToTell = (score: Score, name: Pitch, notes: readonly Note[]): TwinNote | null => {
  const isGrace = notes[0]!.grace !== null;
  const twinsAmong = (others: readonly Note[]) =>
    notes.map(({ onset }) => others.filter((other) => compare(other.onset, onset) === 0));
  const twins = twinsAmong(othersOfName(score, name, notes));
  if (twins.some(({ length }) => length !== 1)) {
    const hasGrace =
      !isGrace && twinsAmong(othersOfName(score, name, notes, true)).every(({ length }) => length > 0);
    return hasGrace ? 'main-note' : null;
  }
  const staves = new Set(notes.map(({ staff }) => staff));
  const isApart = twins.flat().every(({ staff }) => !staves.has(staff));
  const isOnTwo = score.notes.every(({ staff }) => staff === 1 || staff === 2);
  if (staves.size > 1 || !isApart || !isOnTwo) return 'either';
  return staves.has(1) ? 'upper-staff' : 'lower-staff';
};

const notesByBar = perObject((notes: readonly Note[]) => group(notes, ({ bar }) => bar));

/** The notes of that name in the bar of some notes that are none of them, nor tied to one: grace notes, or none. */
const othersOfName = (
  score: Score,
  name: Pitch,
  notes: readonly Note[],
  grace = notes[0]!.grace !== null,
): readonly Note[] => {
  const { bar } = notes[0]!;
  const heads = headsOfTies(score.notes);
  const meant = new Set(notes.map(({ id }) => id));
  return (notesByBar(score.notes).get(bar) ?? []).filter(
    (other) =>
      other.role === 'played' &&
      (other.grace !== null) === grace &&
      isSamePitch(writtenString(other), name) &&
      !meant.has(heads.get(other.id)!.id),
  );
};
