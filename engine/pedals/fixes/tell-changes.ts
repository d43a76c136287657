import type { ChangedNotes, NoteHelp, ToldOrnament } from '../../findings/help/note-help.ts';
import type { FindingPlace } from '../../findings/model.ts';
import { group } from '../../group.ts';
import { type Pitch, pitchName } from '../../music/pitch.ts';
import { rationalKey } from '../../music/rational.ts';
import type { Note } from '../../score/model/note.ts';
import type { Score } from '../../score/model/score.ts';
import { notesById } from '../../score/notes-by-id.ts';
import type { NoteChange } from '../../sounding/changed-needs.ts';
import { nameRunsIn } from '../../words/bar-names.ts';
import { beatsToTell, twinToTell } from './beats-to-tell.ts';
import { kindOfChange } from './likeness.ts';
import { ornamentToTell } from './meant-note.ts';

/**
 * “Write D♭4 for the C♯4 in bar 3.”, once for all notes that are changed alike: those of a bar, with their octaves, and
 * those of several bars where no beats have to be told.
 *
 * @param at the place that they are changed for; null for a passage
 */
export const tellChanges = (
  changes: readonly NoteChange[],
  score: Score,
  at: Pick<FindingPlace, 'bar' | 'beat'> | null,
): NoteHelp<'change-notes'> => {
  const byId = notesById(score.notes);
  const alike = group(
    changes.map((change) => ({ change, note: byId.get(change.note)! })),
    ({ change, note }) =>
      [...namesOf(change), note.bar, note.grace !== null, JSON.stringify(ornamentOf(change, note))].join(' '),
  );
  const barsOfKind = group(
    changes.map((change) => ({ kind: kindOfChange(change), bar: byId.get(change.note)!.bar })),
    ({ kind }) => kind,
  );
  const told = [...alike.values()].map((same): ChangedInBars => {
    const { change, note } = same[0]!;
    // A place in one bar tells nothing of what is changed alike in several.
    const isInSeveral = new Set(barsOfKind.get(kindOfChange(change))!.map(({ bar }) => bar)).size > 1;
    const notes = same.map((each) => each.note);
    return {
      from: [change.from],
      to: change.kind === 'respell' ? [change.to] : null,
      bars: [note.bar],
      isGrace: note.grace !== null,
      twin: twinToTell(score, change.from, notes),
      ornament: ornamentOf(change, note),
      beats: beatsToTell(score, change.from, notes, isInSeveral ? null : at),
      notes: notes.length,
      onsets: notes
        .map(({ onset }) => rationalKey(onset))
        .sort()
        .join(' '),
    };
  });
  const nameRuns = nameRunsIn(score);
  const inWords = joinBars(joinOctaves(told), score).map(({ onsets: _, ...each }) => ({
    ...each,
    bars: nameRuns(each.bars),
  }));
  return { kind: 'change-notes', facts: { changes: inWords } };
};

/** Notes that are changed alike, their bars by index. */
type ChangedInBars = Omit<ChangedNotes, 'bars'> & {
  readonly bars: readonly number[];
  /** When they begin, in one order. */
  readonly onsets: string;
};

/** What goes with a note that is left out. */
const ornamentOf = (change: NoteChange, note: Note): ToldOrnament | null =>
  change.kind === 'omit' ? ornamentToTell(note) : null;

/** What a note is and becomes, in words. */
const namesOf = (change: NoteChange): readonly string[] => [
  pitchName(change.from),
  change.kind === 'respell' ? pitchName(change.to) : '',
];

/** “The G♯4 and G♯5”: what stands at the same beats of a bar in several octaves. */
const joinOctaves = (told: readonly ChangedInBars[]): readonly ChangedInBars[] =>
  joinAlike(
    told,
    ({ from, to, isGrace, twin, ornament, onsets }, i) =>
      isGrace || twin !== null || ornament !== null
        ? `${i}`
        : [...inAnyOctave(from), '>', ...inAnyOctave(to ?? []), onsets].join(' '),
    (alike) => {
      const lowestFirst = alike.toSorted((a, b) => a.from[0]!.octave - b.from[0]!.octave);
      const { to } = alike[0]!;
      return {
        ...alike[0]!,
        from: lowestFirst.flatMap(({ from }) => from),
        to: to === null ? null : lowestFirst.flatMap((each) => each.to ?? []),
        // Of one name the place may tell the beat, and of another not.
        beats: alike.find(({ beats }) => beats.length > 0)?.beats ?? [],
        notes: sumOf(alike),
      };
    },
  );

const inAnyOctave = (pitches: readonly Pitch[]): readonly string[] =>
  pitches.map((pitch) => pitchName({ ...pitch, octave: 0 }));

/** “In bars 23–24”: what no beat has to tell apart. */
const joinBars = (told: readonly ChangedInBars[], { bars }: Pick<Score, 'bars'>): readonly ChangedInBars[] =>
  joinAlike(
    told,
    ({ from, to, bars: own, isGrace, twin, ornament, beats }, i) => {
      const isApart =
        twin !== null || ornament !== null || beats.length > 0 || own.some((bar) => bars[bar]!.number === '');
      return isApart
        ? `${i}`
        : [...from.map(pitchName), '>', ...(to ?? []).map(pitchName), isGrace].join(' ');
    },
    (alike) => ({
      ...alike[0]!,
      bars: [...new Set(alike.flatMap((each) => each.bars))].sort((a, b) => a - b),
      notes: sumOf(alike),
    }),
  );

const sumOf = (told: readonly ChangedInBars[]): number => told.reduce((sum, { notes }) => sum + notes, 0);

const joinAlike = (
  told: readonly ChangedInBars[],
  keyOf: (each: ChangedInBars, i: number) => string,
  join: (alike: readonly ChangedInBars[]) => ChangedInBars,
): readonly ChangedInBars[] => [...group(told, keyOf).values()].map(join);
