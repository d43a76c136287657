import { least } from 'd3-array';
import type { FindingPlace, PedalFinding } from '../../findings/model.ts';
import { midiOf, type Pitch } from '../../music/pitch.ts';
import { compare } from '../../music/rational.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import { isPlucked, isPluckedWith } from '../../score/plucked.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { writtenString } from '../../sounding/needs.ts';
import { isTaken } from '../../sounding/taken-string.ts';
import { isSameChange } from '../fixes/fix-trials.ts';
import type { Move, Plan } from '../model.ts';

/** Notes that may be changed together. */
export type Candidate = readonly NoteChange[];

export const areSameChanges = (a: Candidate, b: Candidate): boolean =>
  a.length === b.length && a.every((change) => b.some((other) => isSameChange(change, other)));

/** Notes that one pedal's position serves and that may be taken out together. */
const MOST_TOGETHER = 6;

/** Moves so far apart, as a share of the rest that a foot needs, do not hinder each other. */
const REACH = 2;

/** What may be tried for one place, by notes: sets that were found already, notes an octave away, notes taken out. */
export interface Candidates {
  readonly found: readonly Candidate[];
  readonly octaves: readonly Candidate[];
  readonly without: readonly Candidate[];
}

/** @param secondsAt clock time of a score time */
export const candidatesFor = (
  score: Score,
  plan: Plan,
  finding: PedalFinding,
  place: FindingPlace,
  secondsAt: (at: Note['onset']) => number,
): Candidates => {
  const byId = notesById(score.notes);
  const own = place.notes.flatMap((id) => byId.get(id) ?? []).filter(isPlucked);
  const groups = crowdedMoves(plan, place, secondsAt).map((move) => notesServed(score, plan, move));
  const chords = octavesOf(score, place.notes).filter(({ length }) => length > 1);
  const single = [...new Set([...own, ...groups.flatMap(([first]) => (first === undefined ? [] : [first]))])];
  return {
    found: finding.fixes.map(({ changes }) => changes).filter((changes) => concerns(changes, place, groups)),
    octaves: own.flatMap((note) =>
      [1, -1]
        .map((octaves) => movedBy(note, octaves))
        .flatMap((change) => (isTaken(score, note, change.to) ? [] : [[change]])),
    ),
    without: [
      ...single.map((note) => [leftOut(note)]),
      ...[...groups, ...chords]
        .filter(({ length }) => length > 1 && length <= MOST_TOGETHER)
        .map((group) => group.map(leftOut)),
    ],
  };
};

/** Of each of some notes, those of its chord with its name, in whatever octave: they want one pedal in one position. */
export const octavesOf = (score: Score, ids: readonly string[]): readonly (readonly Note[])[] => {
  const groups = ids.flatMap((id) => {
    const own = notesById(score.notes).get(id);
    return own === undefined ? [] : [score.notes.filter((note) => isPlucked(note) && areOctaves(note, own))];
  });
  return groups.filter((group, i) => groups.findIndex((other) => other[0]?.id === group[0]?.id) === i);
};

const areOctaves = (a: Note, b: Note): boolean => {
  const [one, other] = [writtenString(a), writtenString(b)];
  return one.letter === other.letter && one.alter === other.alter && compare(a.onset, b.onset) === 0;
};

const concerns = (
  changes: readonly NoteChange[],
  { notes }: FindingPlace,
  groups: readonly (readonly Note[])[],
): boolean => {
  const near = new Set([...notes, ...groups.flatMap((group) => group.map(({ id }) => id))]);
  return changes.some(({ note }) => near.has(note));
};

export const leftOut = (note: Note): NoteChange => ({
  kind: 'omit',
  note: note.id,
  from: writtenString(note),
});

const movedBy = (note: Note, octaves: number): NoteChange & { readonly kind: 'respell' } => {
  const from = writtenString(note);
  return { kind: 'respell', note: note.id, from, to: { ...from, octave: from.octave + octaves } };
};

/** The moves that the foot makes close to the one that lacks time. */
const crowdedMoves = (
  { moves, footRestSeconds }: Plan,
  { notes }: FindingPlace,
  secondsAt: (at: Note['onset']) => number,
): readonly Move[] =>
  moves
    .filter(({ window }) => window.before !== null && notes.includes(window.before.note))
    .flatMap((late) =>
      moves.filter(
        (other) =>
          other.foot === late.foot &&
          Math.abs(secondsAt(other.at) - secondsAt(late.at)) <= REACH * footRestSeconds,
      ),
    );

/**
 * The bars (indices) of a place, of the moves of its foot that come close before it, and of the notes close before it that
 * they have to wait for.
 */
export const barsOfMoves = (
  { notes }: Score,
  plan: Plan,
  place: FindingPlace,
  secondsAt: (at: Note['onset']) => number,
): BarsOfPlace => {
  const moves = crowdedMoves(plan, place, secondsAt);
  const isLate = ({ window }: Move): boolean =>
    window.before !== null && place.notes.includes(window.before.note);
  const before = moves.filter(({ at }) => moves.some((late) => isLate(late) && compare(at, late.at) <= 0));
  const reach = REACH * plan.footRestSeconds;
  const awaited = before.flatMap(({ at, window: { after } }) =>
    after !== null && secondsAt(at) - secondsAt(after.onset) <= reach
      ? [notesById(notes).get(after.note)?.bar ?? place.bar]
      : [],
  );
  const bars = [place.bar, ...before.map(({ bar }) => bar), ...awaited];
  return { first: Math.min(...bars), last: Math.max(...bars) };
};

/** From bar to bar, the last included. */
export interface BarsOfPlace {
  readonly first: number;
  readonly last: number;
}

/** The notes for which a move is made: those of its pedal until it moves again, in the order of the page. */
const notesServed = (score: Score, { moves }: Plan, move: Move): readonly Note[] => {
  const next = moves.find(({ letter, at }) => letter === move.letter && compare(at, move.at) > 0);
  return score.notes.filter(
    (note) =>
      isPlucked(note) &&
      writtenString(note).letter === move.letter &&
      compare(note.onset, move.at) >= 0 &&
      (next === undefined || compare(note.onset, next.at) < 0),
  );
};

/** Whether each note that is left out is plucked at the same time in another octave, of those that are heard. */
export const areDoubled = (
  score: Score,
  changes: readonly NoteChange[],
  unheard: ReadonlySet<string>,
): boolean => {
  const silent = new Set([...unheard, ...changes.map(({ note }) => note)]);
  const byId = notesById(score.notes);
  return changes.every((change) => {
    const note = byId.get(change.note);
    return note !== undefined && doubleOf(score, note, silent) !== undefined;
  });
};

/**
 * A note that is plucked with another, of the same name in sound. One that was plucked before dies away by then, and leaves
 * the new stroke to be missed. The nearest in pitch, where there are several.
 */
export const doubleOf = (score: Score, note: Note, silent: ReadonlySet<string>): Note | undefined =>
  least(
    score.notes.filter(
      (other) =>
        other.role === 'played' &&
        other.id !== note.id &&
        !silent.has(other.id) &&
        other.tiedFrom === null &&
        isSameClass(other.pitch, note.pitch) &&
        isPluckedWith(other, note),
    ),
    (other) => Math.abs(midiOf(other.pitch) - midiOf(note.pitch)),
  );

const isSameClass = (a: Pitch, b: Pitch): boolean => (midiOf(a) - midiOf(b)) % 12 === 0;
