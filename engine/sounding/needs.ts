import { isFixedString, isInRange, type PedalHarpProfile, stringOf } from '../harp/profile.ts';
import { NO_SCORDATURA, nameString, type Scordatura, stringsSounding } from '../harp/scordatura.ts';
import { isPosition, type Position } from '../harp/setting.ts';
import { isSamePitch, type Letter, letterAtStep, midiOf, type Pitch, stepOf } from '../music/pitch.ts';
import { add, compare, multiply, type Rational, rational } from '../music/rational.ts';
import type { Note } from '../score/model/note.ts';
import type { Score } from '../score/model/score.ts';
import { notesById } from '../score/notes-by-id.ts';
import { isPlucked } from '../score/plucked.ts';
import type { SweepSetting } from './glissando-settings.ts';
import type { Respelling } from './respelling.ts';
import { releaseTimes } from './ties.ts';

/** A note, or an implied one, asks for one pedal in one position. */
export interface Need {
  readonly letter: Letter;
  readonly octave: number;
  readonly position: Position;
  readonly note: Note;
  /** The note with which that begins: itself, or the first of a tremolo between two. */
  readonly startNote: Note;
  /** When the string is first plucked for it. */
  readonly onset: Rational;
  /** Plucked again and again (trill, tremolo, glissando) until here; equal to `onset` for one pluck. */
  readonly heldUntil: Rational;
  /** End of the notated sound, ties counted. */
  readonly release: Rational;
  /** `slid`: reached by moving the pedal while the string rings, not plucked. */
  readonly kind: 'plucked' | 'implied' | 'swept' | 'slid';
}

/** A note, or an implied one, asks a string for a pitch: one that no pedal reaches, or that the harp lacks. */
export interface StringNeed extends Pick<Need, 'note' | 'kind'> {
  readonly pitch: Pitch;
}

/** What the notes ask of the harp, and what it cannot give as written. */
export interface NeedList {
  readonly needs: readonly Need[];
  /** Notes that are played on another string than written. */
  readonly respellings: readonly Respelling[];
  /** Neighbours that ornaments bring in and no string gives as they are called: by the ornamented note. */
  readonly ornamentRespellings: readonly Respelling[];
  readonly outOfRange: readonly StringNeed[];
  readonly microtones: readonly Note[];
  /** Notes whose strings are all tuned to something else. */
  readonly lostByRetuning: readonly Note[];
  /** Notes on strings that no pedal reaches. */
  readonly onFixedStrings: readonly StringNeed[];
}

/** A pitch that a pedal can give. */
export type PedalPitch = Pitch & { readonly alter: Position };

/** Other strings for notes, by note id. */
export type ChosenSpelling = ReadonlyMap<string, Pitch>;

/**
 * Lists what every plucked, implied and swept note asks of the pedals.
 *
 * Notes of cues are not the harp's; tied notes ring on and ask for nothing new; notes without a pedal, out of range
 * or between the semitones ask for no pedal and are listed apart. Linear in the notes.
 *
 * @param spelling strings to play notes on instead of those written; each must give the written pitch, in any octave
 * @param omitted ids of notes that ask for nothing; with its first note a glissando is left out too
 * @param scordatura strings tuned otherwise: notes are played on the string that sounds as they are written
 */
export const listNeeds = (
  score: Score,
  profile: PedalHarpProfile,
  sweeps: readonly SweepSetting[],
  spelling: ChosenSpelling = new Map(),
  omitted: ReadonlySet<string> = new Set(),
  scordatura: Scordatura = NO_SCORDATURA,
): NeedList => {
  const releases = releaseTimes(score.notes);
  const pluckingOf = findPluckings(score.notes, releases);
  const slid = findSlidNotes(score, omitted);
  const lists = emptyLists();
  const ask = (note: Note, kind: Need['kind'], written: Pitch, plucking: Plucking): void => {
    const chosen = kind === 'plucked' ? spelling.get(note.id) : undefined;
    const pitch = chosen ?? spellForHarp(written, scordatura);
    fileAsked(lists, profile, { note, kind, written, pitch }, plucking);
  };
  for (const note of score.notes) {
    if (!isPlucked(note) || omitted.has(note.id)) continue;
    const plucking = pluckingOf(note);
    ask(note, slid.has(note.id) ? 'slid' : 'plucked', writtenString(note), plucking);
    for (const neighbour of [note.ornament?.upper, note.ornament?.lower]) {
      if (neighbour) ask(note, 'implied', neighbour, ornamentPlucking(note, plucking.release));
    }
  }
  lists.needs.push(
    ...sweeps
      .filter(({ from }) => !omitted.has(from.id))
      .flatMap((swept) => sweptNeeds(swept, releases.get(swept.to.id)!)),
  );
  return lists;
};

const emptyLists = () => ({
  needs: [] as Need[],
  respellings: [] as Respelling[],
  ornamentRespellings: [] as Respelling[],
  outOfRange: [] as StringNeed[],
  microtones: [] as Note[],
  lostByRetuning: [] as Note[],
  onFixedStrings: [] as StringNeed[],
});

/** A pitch that is asked for, and the one of the string to be played for it; null where no string gives it. */
interface Asked extends Pick<Need, 'note' | 'kind'> {
  readonly written: Pitch;
  readonly pitch: Pitch | null;
}

/** Files what is asked for among the needs, or among what the harp cannot give. */
const fileAsked = (
  lists: ReturnType<typeof emptyLists>,
  profile: PedalHarpProfile,
  { note, kind, written, pitch }: Asked,
  { startNote, at, until, release }: Plucking,
): void => {
  if (pitch === null) {
    (Number.isInteger(written.alter) ? lists.lostByRetuning : lists.microtones).push(note);
    return;
  }
  if (!isSamePitch(pitch, written)) {
    const respelt = kind === 'implied' ? lists.ornamentRespellings : lists.respellings;
    respelt.push({ note: note.id, from: written, to: pitch });
  }
  const string = stringOf(pitch);
  if (!isInRange(profile, string)) lists.outOfRange.push({ note, pitch: written, kind });
  else if (isFixedString(profile, string)) lists.onFixedStrings.push({ note, pitch, kind });
  else if (isPosition(pitch.alter)) {
    lists.needs.push({
      letter: string.letter,
      octave: string.octave,
      position: pitch.alter,
      note,
      startNote,
      onset: at,
      heldUntil: until,
      release,
      kind,
    });
  }
};

/** The string that a note is written for, with its pitch: for a harmonic an octave below what sounds. */
export const writtenString = (note: Note): Pitch => note.harmonic?.string ?? note.pitch;

/**
 * Notes at the end of a slide that stays on one string: the pedal bends the ringing string to them. Where the note
 * before is left out nothing rings, and they are plucked.
 */
export const findSlidNotes = (
  score: Score,
  omitted: ReadonlySet<string> = new Set(),
): ReadonlySet<string> => {
  const slides = score.sweeps.filter(({ kind }) => kind === 'slide');
  if (slides.length === 0) return new Set();
  const byId = notesById(score.notes);
  return new Set(
    slides.flatMap((sweep) => {
      const from = byId.get(sweep.from)?.pitch;
      const to = byId.get(sweep.to)?.pitch;
      const oneString = from !== undefined && from.letter === to?.letter && from.octave === to.octave;
      return oneString && !omitted.has(sweep.from) ? [sweep.to] : [];
    }),
  );
};

/** The stretch over which a note's string is plucked again and again; of no length for one pluck. */
export interface Plucking {
  /** The note at which it begins: another one for the second note of a tremolo between two. */
  readonly startNote: Note;
  /** When it begins: with that note, or later. */
  readonly at: Rational;
  readonly until: Rational;
  /** When its sound ends, as it is written. */
  readonly release: Rational;
}

/** When the neighbours of an ornament are plucked. A delayed turn comes in the second half of its note (common practice, no source). */
export const ornamentPlucking = (note: Note, release: Rational): Plucking => {
  switch (note.ornament?.kind) {
    case 'trill':
      return { startNote: note, at: note.onset, until: release, release };
    case 'delayed-turn':
    case 'delayed-inverted-turn': {
      const at = add(note.onset, multiply(note.duration, rational(1, 2)));
      return { startNote: note, at, until: at, release };
    }
    default:
      return { startNote: note, at: note.onset, until: note.onset, release };
  }
};

/** By note: when its own string is plucked, on account of a tremolo of its own or between it and another. */
export const findPluckings = (
  notes: readonly Note[],
  release: ReadonlyMap<string, Rational>,
): ((note: Note) => Plucking) => {
  const byId = new Map(notes.filter(({ tremolo }) => tremolo !== null).map((note) => [note.id, note]));
  return (note) => {
    const own = release.get(note.id)!;
    if (note.tremolo === null) return { startNote: note, at: note.onset, until: note.onset, release: own };
    const pair = note.tremolo.kind === 'between' ? byId.get(note.tremolo.pair ?? '') : undefined;
    if (pair === undefined) return { startNote: note, at: note.onset, until: own, release: own };
    const others = release.get(pair.id)!;
    const end = compare(others, own) > 0 ? others : own;
    const first = compare(pair.onset, note.onset) < 0 ? pair : note;
    return { startNote: first, at: first.onset, until: end, release: end };
  };
};

/** A glissando needs the pedals of its strings from its first to its last. */
const sweptNeeds = ({ sweep, from, letters, setting }: SweepSetting, release: Rational): Need[] =>
  letters.map((letter) => ({
    letter,
    octave: from.pitch.octave,
    position: setting[letter],
    note: from,
    startNote: from,
    onset: sweep.start,
    heldUntil: sweep.end,
    release,
    kind: 'swept',
  }));

/**
 * The pitch as a string of the harp can give it: as written, or a double accidental on the neighbouring string.
 *
 * @returns the pitch itself where it stands as written, another string's for a double accidental or where strings are
 * tuned otherwise, null where no string gives it: a microtone as a rule
 * @example spellForHarp({ letter: 'D', alter: -2, octave: 4 }) // C4 natural
 */
export const spellForHarp = (pitch: Pitch, scordatura: Scordatura = NO_SCORDATURA): Pitch | null => {
  if (scordatura.size > 0) return stringsSounding(pitch, scordatura)[0] ?? null;
  if (isPosition(pitch.alter)) return pitch;
  return Number.isInteger(pitch.alter) ? (otherStrings(pitch)[0] ?? null) : null;
};

/** The other strings of a pitch that a pedal sets and that are tuned as usual; none for one on a string tuned otherwise. */
export const otherPedalStrings = (
  pitch: Pitch,
  profile: PedalHarpProfile,
  scordatura: Scordatura,
): PedalPitch[] =>
  scordatura.has(nameString(pitch))
    ? []
    : otherStrings(pitch).filter(
        (other) =>
          isInRange(profile, stringOf(other)) &&
          !isFixedString(profile, stringOf(other)) &&
          !scordatura.has(nameString(other)),
      );

/**
 * The other strings that give a pitch, the nearest first: none for D, G and A natural, one for every other pitch
 * (H. Berlioz, *Traité d'instrumentation*, La Harpe; from memory for the page, computed here).
 */
export const otherStrings = (pitch: Pitch): PedalPitch[] => {
  const wanted = midiOf(pitch);
  const direction = pitch.alter < 0 ? -1 : 1;
  return [1, -1, 2, -2, 3, -3].flatMap((steps) => {
    const { letter, octave } = letterAtStep(stepOf(pitch) + direction * steps);
    const alter = wanted - midiOf({ letter, octave, alter: 0 });
    return isPosition(alter) ? [{ letter, octave, alter }] : [];
  });
};
