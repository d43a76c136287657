import { Chord, Note, Scale } from 'tonal';
import { group } from '../group.ts';
import { maskOf } from '../music/pitch-classes.ts';
import { fail, ok, type Result } from '../problem.ts';
import { germanList, germanRoot } from './german-notes.ts';
import { findUsualName } from './sound-names.ts';

/** What a glissando is to sound: pitch classes in semitones above C, and how the user named them. */
export interface WantedSound {
  readonly name: string;
  /** The notes as they were understood, in English with real accidentals. */
  readonly notes: readonly string[];
  readonly pitchClasses: ReadonlySet<number>;
}

/**
 * Reads what a glissando is to sound: note names (`C Eb Gb A`), a chord (`Cdim7`, `Eb dominant 7`) or a scale (`C whole
 * tone`, `F# natural minor`), by the usual names or those of tonal; accidentals real or ASCII, the root in capitals or
 * not, English or German.
 *
 * @returns `bad-value` where the text is none of these
 */
export const readWantedSound = (text: string): Result<WantedSound> => {
  const name = plainName(text);
  const sound = soundOf(name, notesOf(name));
  return sound === null
    ? fail({ code: 'bad-value', what: 'chord, scale or list of notes', value: text, line: 1, column: 1 })
    : ok(sound);
};

const plainName = (text: string): string =>
  text
    .trim()
    .replace(/\s+/g, ' ')
    .replace(/(?<=^[A-G])[ -](?:flat(?! (?:three|six) )|♭)|♭/gi, 'b')
    .replace(/(?<=^[A-G])[ -](?:sharp|♯)|♯/gi, '#')
    .replaceAll('♮', '');

/** @param named as tonal names them; null where none of them is a note */
const soundOf = (name: string, named: readonly string[]): WantedSound | null => {
  const notes = named.filter((note) => Note.chroma(note) !== undefined);
  const pitchClasses = new Set(notes.map((note) => Note.chroma(note)!));
  return pitchClasses.size === 0 ? null : { name, notes: notes.map(asStrings), pitchClasses };
};

/** What settings are sought for. */
export type Sought = Pick<WantedSound, 'pitchClasses'>;

/** What was asked for: one sound, or, where its name has no root, the same on every root. */
export interface WantedSounds {
  /** As the user named it. */
  readonly name: string;
  readonly sounds: readonly WantedSound[];
}

/**
 * The same for names without a root as well, such as “dim 7” and “whole-tone”, which players ask for when any root will
 * do: the sound on every root, once where roots share their notes (three diminished sevenths, two whole-tone scales).
 *
 * @returns `bad-value` where the text names no sound
 */
export const readWantedSounds = (text: string): Result<WantedSounds> => {
  const read = readWantedSound(text);
  if (read.ok) return ok({ name: read.value.name, sounds: [read.value] });
  const name = plainName(text);
  const sounds = name === '' ? [] : soundsOnEveryRoot(name);
  return sounds.length === 0 ? read : ok({ name, sounds });
};

/** A root for each pitch class, by its usual name. */
export const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'] as const;

const soundsOnEveryRoot = (name: string): readonly WantedSound[] => {
  const onRoots = ROOTS.flatMap((root) => {
    const sound = soundOf(name, namedNotes(root, ` ${name}`));
    return sound === null ? [] : [{ root: asStrings(root), sound }];
  });
  return [...group(onRoots, ({ sound }) => maskOf(sound.pitchClasses)).values()].map((same) => ({
    ...same[0]!.sound,
    name: `${same.map(({ root }) => root).join(', ')} ${name}`,
  }));
};

/** No string gives a double accidental: the neighbour that sounds the same is named. */
const asStrings = (note: string): string =>
  (/bb|##/.test(note) ? Note.simplify(note) : note).replaceAll('b', '♭').replaceAll('#', '♯');

/** The pitch class of a note that was understood, in semitones above C. */
export const chromaOfNote = (note: string): number =>
  Note.chroma(note.replaceAll('♭', 'b').replaceAll('♯', '#')) ?? Number.NaN;

const notesOf = (name: string): readonly string[] => {
  const tokens = name.split(/[\s,]+/).filter((token) => token !== '');
  if (tokens.every((token) => /^[A-G](bb?|##?|n)?$/i.test(token)))
    return tokens.map((token) => capitalize(token).replace(/n$/i, ''));
  const german = germanList(tokens) ?? undefined;
  if (german !== undefined) return german;
  const parts = splitRoot(name);
  return parts === null ? [] : namedNotes(parts.root, parts.rest);
};

const capitalize = (name: string): string => name.slice(0, 1).toUpperCase() + name.slice(1).toLowerCase();

/** The root of a name, and what is said of it; null where it begins with no note. */
export const splitRoot = (name: string): { readonly root: string; readonly rest: string } | null => {
  const german = germanRoot(name);
  if (german !== null) return german;
  const parts = /^([A-G](?:bb?|##?)?)(.*)$/u.exec(name.slice(0, 1).toUpperCase() + name.slice(1));
  return parts === null ? null : { root: parts[1]!, rest: parts[2]! };
};

const namedNotes = (root: string, rest: string): readonly string[] => {
  const usual = findUsualName(rest);
  if (usual !== null)
    return usual.kind === 'chord'
      ? Chord.get(root + usual.name).notes
      : Scale.get(`${root} ${usual.name}`).notes;
  const chord = Chord.get(root + rest.trim());
  const scale = Scale.get(
    `${root} ${rest
      .trim()
      .toLowerCase()
      .replace(/(?<=whole|pentatonic)-/, ' ')}`,
  );
  const named = [
    ...(scale.empty || scale.tonic === null ? [] : [scale.notes]),
    ...(chord.empty || chord.tonic === null ? [] : [chord.notes]),
  ];
  // “C major” names a scale and a triad: no setting gives a triad, so a name in two words is a scale.
  return (rest.startsWith(' ') ? named[0] : named.at(-1)) ?? [];
};
