import { isFixedString, isInRange, type PedalHarpProfile, stringOf } from '../harp/profile.ts';
import { isPosition, type Position } from '../harp/setting.ts';
import { LETTERS, type Letter, letterAtStep, midiOf, type Pitch, stepOf } from '../music/pitch.ts';
import { add, compare, type Rational } from '../music/rational.ts';
import type { Note, Score } from '../score/model.ts';
import type { Respelling } from './model.ts';
import type { SweepSetting } from './sweep-setting.ts';

/** A note, or an implied one, asks for one pedal in one position. */
export interface Need {
  readonly letter: Letter;
  readonly octave: number;
  readonly position: Position;
  readonly note: Note;
  /** When the string is first plucked for it. */
  readonly onset: Rational;
  /** Plucked again and again (trill, tremolo, glissando) until here; equal to `onset` for one pluck. */
  readonly heldUntil: Rational;
  /** End of the notated sound, ties counted. */
  readonly release: Rational;
  /** `slid`: reached by moving the pedal while the string rings, not plucked. */
  readonly kind: 'plucked' | 'implied' | 'swept' | 'slid';
}

/** What the notes ask of the harp, and what it cannot give as written. */
export interface Needs {
  readonly needs: readonly Need[];
  readonly respellings: readonly Respelling[];
  readonly outOfRange: readonly Note[];
  readonly microtones: readonly Note[];
  /** Notes on strings that no pedal reaches. */
  readonly onFixedStrings: readonly { readonly note: Note; readonly pitch: Pitch }[];
}

/** Other strings for notes, by note id. */
export type ChosenSpelling = ReadonlyMap<string, Pitch>;

/**
 * Lists what every plucked, implied and swept note asks of the pedals.
 *
 * Notes of cues are not the harp's; tied notes ring on and ask for nothing new; notes without a pedal, out of range
 * or between the semitones ask for no pedal and are listed apart. Linear in the notes.
 *
 * @param spelling strings to play notes on instead of those written; each must give the written pitch
 */
export const listNeeds = (
  score: Score,
  profile: PedalHarpProfile,
  sweeps: readonly SweepSetting[],
  spelling: ChosenSpelling = new Map(),
): Needs => {
  const release = releaseTimes(score.notes);
  const slid = findSlidNotes(score);
  const needs: Need[] = [];
  const respellings: Respelling[] = [];
  const outOfRange: Note[] = [];
  const microtones: Note[] = [];
  const onFixedStrings: { note: Note; pitch: Pitch }[] = [];

  const ask = (note: Note, written: Pitch, kind: Need['kind'], until: Rational): void => {
    const pitch = (kind === 'plucked' ? spelling.get(note.id) : undefined) ?? spellForHarp(written);
    if (pitch === null) {
      microtones.push(note);
      return;
    }
    if (pitch !== written) respellings.push({ note: note.id, from: written, to: pitch });
    const string = stringOf(pitch);
    if (!isInRange(profile, string)) outOfRange.push(note);
    else if (isFixedString(profile, string)) onFixedStrings.push({ note, pitch });
    else if (isPosition(pitch.alter)) {
      const { onset } = note;
      needs.push({
        ...string,
        position: pitch.alter,
        note,
        onset,
        heldUntil: until,
        release: release.get(note.id)!,
        kind,
      });
    }
  };

  for (const note of score.notes) {
    if (note.role === 'cue' || note.tiedFrom !== null) continue;
    const end = release.get(note.id)!;
    const kind = slid.has(note.id) ? 'slid' : 'plucked';
    ask(note, note.harmonic?.string ?? note.pitch, kind, note.tremolo === null ? note.onset : end);
    for (const neighbour of [note.ornament?.upper, note.ornament?.lower]) {
      if (neighbour) ask(note, neighbour, 'implied', note.ornament?.kind === 'trill' ? end : note.onset);
    }
  }
  needs.push(...sweeps.flatMap((swept) => sweptNeeds(swept, release.get(swept.to.id)!)));
  return { needs, respellings, outOfRange, microtones, onFixedStrings };
};

/** Notes at the end of a slide that stays on one string: the pedal bends the ringing string to them. */
export const findSlidNotes = (score: Score): ReadonlySet<string> => {
  const byId = new Map(score.notes.map((note) => [note.id, note]));
  return new Set(
    score.sweeps.flatMap((sweep) => {
      const from = byId.get(sweep.from)?.pitch;
      const to = byId.get(sweep.to)?.pitch;
      const oneString = from !== undefined && from.letter === to?.letter && from.octave === to.octave;
      return sweep.kind === 'slide' && oneString ? [sweep.to] : [];
    }),
  );
};

/** Ends of the notated sounds by note id: a tied chain ends where its last note ends. */
const releaseTimes = (notes: readonly Note[]): Map<string, Rational> => {
  const release = new Map<string, Rational>();
  const heads = new Map<string, string>();
  for (const note of notes) {
    const end = add(note.onset, note.duration);
    const head = note.tiedFrom === null ? note.id : (heads.get(note.tiedFrom) ?? note.tiedFrom);
    heads.set(note.id, head);
    release.set(note.id, end);
    const known = release.get(head);
    if (known === undefined || compare(known, end) < 0) release.set(head, end);
  }
  return release;
};

/** A glissando needs all seven pedals from its first string to its last. */
const sweptNeeds = ({ sweep, from, setting }: SweepSetting, release: Rational): Need[] =>
  LETTERS.map((letter) => ({
    letter,
    octave: from.pitch.octave,
    position: setting[letter],
    note: from,
    onset: sweep.start,
    heldUntil: sweep.end,
    release,
    kind: 'swept',
  }));

/**
 * The pitch as a string of the harp can give it: as written, or a double accidental on the neighbouring string.
 *
 * @returns the same object where it stands as written, a respelled pitch for a double accidental, null for a microtone
 * @example spellForHarp({ letter: 'D', alter: -2, octave: 4 }) // C4 natural
 */
export const spellForHarp = (pitch: Pitch): Pitch | null => {
  if (isPosition(pitch.alter)) return pitch;
  return Number.isInteger(pitch.alter) ? (otherStrings(pitch)[0] ?? null) : null;
};

/**
 * The other strings that give a pitch, the nearest first: none for D, G and A natural, one for every other pitch
 * (H. Berlioz, *Traité d'instrumentation*, La Harpe; from memory for the page, computed here).
 */
export const otherStrings = (pitch: Pitch): Pitch[] => {
  const wanted = midiOf(pitch);
  const direction = pitch.alter < 0 ? -1 : 1;
  return [1, -1, 2, -2, 3, -3].flatMap((steps) => {
    const { letter, octave } = letterAtStep(stepOf(pitch) + direction * steps);
    const alter = wanted - midiOf({ letter, octave, alter: 0 });
    return isPosition(alter) ? [{ letter, octave, alter }] : [];
  });
};
