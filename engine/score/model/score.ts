import type { KeyMode } from '../../music/key-names.ts';
import type { PartSummary } from '../../problem.ts';
import type { Bar } from './bar.ts';
import type { Damp, PhraseMark, Rest, Sweep } from './between-notes.ts';
import type { LeverMarking, SourceMarking, UnreadWords } from './markings.ts';
import type { Note } from './note.ts';
import type { Remark } from './remark.ts';
import type { SourceText } from './source.ts';
import type { TempoMark, TempoNotice } from './tempo.ts';
import type { DelayNotice, Landmark, PlayerShare, ScoreText, SharingMark } from './texts.ts';

/**
 * A harp part as read: what the player sees and sounds, with the place of everything in the source text.
 *
 * Score time is printed time: an exact rational of quarter notes from the first bar, each printed bar once. What is
 * played more than once is told by `playOrder`.
 */
export interface Score {
  readonly source: SourceText;
  /** Whether it was a tune in ABC, which names no instrument. */
  readonly isTune: boolean;
  readonly titles: Titles;
  readonly parts: readonly PartSummary[];
  readonly harp: HarpPart;
  /** All that count as harps by name or sound, in score order: `harp` is the first of them where none was asked for. */
  readonly harps: readonly HarpLabel[];
  readonly bars: readonly Bar[];
  /** The mode of the key at the beginning, where the file states one that is known. */
  readonly keyMode: KeyMode;
  /** Notes of the harp in order of onset, grace notes before the note they lead to. */
  readonly notes: readonly Note[];
  readonly rests: readonly Rest[];
  /** Glissandi and slides in order of onset. */
  readonly sweeps: readonly Sweep[];
  /** Slurs, and signs that stop the music, in order. */
  readonly phrases: readonly PhraseMark[];
  /** Where strings are to be stilled, in order. */
  readonly damps: readonly Damp[];
  /** Tempo changes in order; the first is at 0 (assumed where the score states none, see `assumedTempo`). */
  readonly tempo: readonly TempoMark[];
  /** What is to be told of passages that a user slowed, in order; empty where the tempo is as written. */
  readonly slowed: readonly TempoNotice[];
  /** What is to be told of notes that a user has wait, in order; empty where all are played as written. */
  readonly delayed: readonly DelayNotice[];
  readonly landmarks: readonly Landmark[];
  /** What is printed once in the score and concerns every player, the harp's own included, in order. */
  readonly texts: readonly ScoreText[];
  /** Indices of the bars at which movements after the first begin. */
  readonly movements: readonly number[];
  /** Those of them behind a final bar line and no order to go on, such as “attacca”: there the music stops. */
  readonly pauses: readonly number[];
  /** What words say of the players who share the part, in order; empty for a part of one player. */
  readonly sharing: readonly SharingMark[];
  /** Whose notes the score was cut down to; null where it is as written. */
  readonly share: PlayerShare | null;
  /** Pedal markings that the file already holds, in order. */
  readonly markings: readonly SourceMarking[];
  /** Words near the harp that seem to name pedals and are not understood, in order. */
  readonly unreadWords: readonly UnreadWords[];
  /** Words near the harp that tell of levers, or seem to, in order: for a lever harp they stand for `markings`. */
  readonly leverWords: readonly LeverMarking[];
  /** Ids of small notes with a diamond for a head: in a part for a lever harp they show levers (see `readLeverSigns`). */
  readonly smallDiamonds: readonly string[];
  /** Indices into `bars` in the order they sound, repeats and jumps followed. */
  readonly playOrder: readonly number[];
  /** How the source was understood where it left a choice, and what was passed over: for the user to read. */
  readonly remarks: readonly Remark[];
}

/** What the file says of the piece and its makers; empty where it says nothing. */
export interface Titles {
  readonly title: string;
  readonly subtitle: string;
  readonly composer: string;
  readonly arranger: string;
  /** Who has the rights, or under what terms the file may be used. */
  readonly rights: string;
}

/** Which staves of the file are the harp: one part of one or more staves, or two one-staff parts (upper first). */
export interface HarpPart {
  readonly partIds: readonly string[];
  readonly name: string;
  /** How many players the part is for, as its name and its words tell: 1 for most. */
  readonly players: number;
  /** Number of staves; `Note.staff` runs from 1 (top) to this. */
  readonly staves: number;
  /** For MEI, the `n` of each staff from the top; for MusicXML empty. */
  readonly meiStaves: readonly string[];
}

/** A harp of the score, by the id of its (first) part. */
export interface HarpLabel {
  readonly id: string;
  readonly name: string;
}
