import type { Position } from '../harp/setting.ts';
import type { Side } from '../harp/side.ts';
import type { KeyMode } from '../music/key-names.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
import type { PartSummary } from '../problem.ts';
import type { Span, XmlElement } from '../xml/tree.ts';
import type { LeverWords } from './words/lever-words.ts';

/**
 * A harp part as read: what the player sees and sounds, with the place of everything in the source text.
 *
 * Score time is printed time: an exact rational of quarter notes from the first bar, each printed bar once. What is
 * played more than once is told by `playOrder`.
 */
export interface Score {
  readonly source: SourceText;
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
  readonly landmarks: readonly Landmark[];
  /** What is printed once in the score and concerns every player, the harp's own included, in order. */
  readonly texts: readonly ScoreText[];
  /** Indices of the bars at which movements after the first begin. */
  readonly movements: readonly number[];
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

/** The open formats that are read. */
export type ScoreFormat = 'musicxml-partwise' | 'musicxml-timewise' | 'mei';

/** The score file as text. All spans of the model are string indices into `text`. */
export interface SourceText {
  readonly format: ScoreFormat;
  /** The version that the file states, such as `4.0` or `5.1`; empty if it states none. */
  readonly version: string;
  readonly text: string;
  /** The whole document, parsed once: later stages find their way by its spans and parse nothing again. */
  readonly root: XmlElement;
  readonly encoding: TextEncoding;
  /** For a compressed score, the path of the score file in the archive. */
  readonly archivePath: string | null;
  /** For MEI with several movements the one that is read: `root` has no other. */
  readonly movement: SourceMovement | null;
}

/** One movement of several. */
export interface SourceMovement {
  /** Its place among them, from 1. */
  readonly number: number;
  /** Empty where the file names none. */
  readonly title: string;
  /** The titles of all of them, in order. */
  readonly titles: readonly string[];
  /** Where the others stand. */
  readonly others: readonly Span[];
}

/** How the bytes of a text stand for its characters. */
export type TextEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'iso-8859-1';

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

/** One printed bar. */
export interface Bar {
  readonly index: number;
  /** The printed number, which may be `0` or `12a`; counted where the file prints none that people can use. */
  readonly number: string;
  readonly id: string;
  /** The bar's element in the source: for partwise MusicXML, that of the harp's first part. */
  readonly span: Span;
  readonly onset: Rational;
  readonly duration: Rational;
  readonly meter: Meter;
  /** Key signature at the bar's start: sharps positive, flats negative. */
  readonly keyFifths: number;
  readonly repeat: BarRepeat;
}

/** `beats` beats of a `beatUnit`-th note: 6/8 is `{ beats: 6, beatUnit: 8 }`. */
export interface Meter {
  readonly beats: number;
  readonly beatUnit: number;
}

/** The signs of one bar that send the player elsewhere. */
export interface BarRepeat {
  readonly start: boolean;
  /** Times the passage is played in all (2 for an ordinary sign); 0 where no repeat ends. */
  readonly endTimes: number;
  /** Numbers of the endings (voltas) this bar stands under; empty where it stands under none. */
  readonly endings: readonly number[];
  readonly jumps: readonly Jump[];
}

export type Jump =
  | { readonly kind: 'segno' | 'coda'; readonly label: string }
  | { readonly kind: 'to-coda'; readonly label: string }
  | { readonly kind: 'da-capo' }
  | { readonly kind: 'dal-segno'; readonly label: string }
  | { readonly kind: 'fine' };

/** One notehead of the harp. */
export interface Note {
  /** The source's own id where it is unique, else one made from the place in the text (`n` and the offset). */
  readonly id: string;
  readonly span: Span;
  /** Index into `bars`. */
  readonly bar: number;
  /** 1 is the upper staff of the harp. A cross-staff note has the staff it is printed on. */
  readonly staff: number;
  readonly voice: string;
  readonly onset: Rational;
  /** Notated length in quarter notes; 0 for a grace note. */
  readonly duration: Rational;
  /** The sounding pitch as spelled: octave lines and transposition applied. Its letter and octave name the string, harmonics apart. */
  readonly pitch: Pitch;
  /** Notes of one chord share this: the id of the chord's first note. */
  readonly chord: string;
  /** Grace notes that share an onset are counted from 0 in playing order; null for ordinary notes. */
  readonly grace: { readonly order: number; readonly slashed: boolean } | null;
  /** The id of the note it is tied from: its string goes on sounding and is not plucked. */
  readonly tiedFrom: string | null;
  /** `cue` notes belong to another instrument; `hidden` ones are not printed but do sound. */
  readonly role: 'played' | 'cue' | 'hidden';
  readonly ornament: Ornament | null;
  readonly tremolo: Tremolo | null;
  readonly harmonic: Harmonic | null;
  readonly arpeggio: 'up' | 'down' | 'plain' | 'none' | null;
  /** Laissez vibrer: not to be stilled at the end of the notated length. */
  readonly letRing: boolean;
  /** As the file has it; null where it leaves stems to the printer, and for notes without one. */
  readonly stem: 'up' | 'down' | null;
  /** Notes under one beam share this, over both staves; null without a beam. */
  readonly beam: string | null;
  /** What words at this note say of the hand; null where none stand there. They may hold for the notes after it. */
  readonly hand: HandWords | null;
}

/** What words such as “m.g.”, “R.H.” or “sopra” say of the hand that plays; at least one is not null. */
export interface HandWords {
  readonly hand: Side | null;
  /** The hand goes over or under the other. */
  readonly crossing: 'over' | 'under' | null;
}

/** An ornament brings in neighbours that are not printed: `upper` and `lower` hold the pitches it asks for. */
export interface Ornament {
  readonly kind:
    | 'trill'
    | 'mordent'
    | 'inverted-mordent'
    | 'turn'
    | 'inverted-turn'
    | 'delayed-turn'
    | 'delayed-inverted-turn'
    | 'shake'
    | 'other';
  readonly upper: Pitch | null;
  readonly lower: Pitch | null;
}

/** `pair` is the id of the other note (or of the other chord's first note) of a two-note tremolo. */
export interface Tremolo {
  readonly kind: 'single' | 'between';
  readonly marks: number;
  readonly pair: string | null;
}

/** A harmonic: `string` is what is plucked, the pitch sounds an octave above it. */
export interface Harmonic {
  readonly string: Pitch;
  /** What the notehead of the source shows, and whether the source says so or it was assumed. */
  readonly notated: 'base-pitch' | 'touching-pitch' | 'sounding-pitch';
  readonly assumed: boolean;
}

/** A printed rest, which says where the hands are free. */
export interface Rest {
  readonly id: string;
  readonly span: Span;
  readonly bar: number;
  readonly staff: number;
  readonly voice: string;
  readonly onset: Rational;
  readonly duration: Rational;
}

/** A glissando (every string between its ends) or a slide (the pitch bends: on the harp by the pedal). */
export interface Sweep {
  readonly kind: 'glissando' | 'slide';
  /** Note ids. */
  readonly from: string;
  readonly to: string;
  readonly start: Rational;
  readonly end: Rational;
  readonly bar: number;
  /** What words at it say of the strings; null where they say nothing. */
  readonly words: SweepWords | null;
}

/** What words such as “gliss. E♭ major” or “gliss. (D♭ C♮)” state. */
export interface SweepWords {
  readonly positions: Readonly<Partial<Record<Letter, Position>>>;
  /** Pitch classes of a chord or scale, in semitones above C; null where none is named. */
  readonly sound: readonly number[] | null;
}

/** A slur over notes of the harp, or a sign that stops the music at one: what ends a phrase. */
export interface PhraseMark {
  readonly kind: 'slur' | 'fermata' | 'breath' | 'caesura';
  /** Onsets of its first and its last note; of a sign both are that of its note. */
  readonly start: Rational;
  readonly last: Rational;
  /** Where the last note ends. */
  readonly end: Rational;
}

/** From `at` on, the named staff's strings (all of them where `staff` is null) are stilled. */
export interface Damp {
  readonly at: Rational;
  readonly kind: 'damp' | 'damp-all';
  readonly staff: number | null;
}

export interface TempoMark {
  readonly at: Rational;
  readonly quartersPerMinute: number;
  readonly origin: 'sound' | 'metronome' | 'assumed';
}

/** A note that tempi are told in. */
export interface TempoUnit {
  /** As a sign of Unicode, with its dot. */
  readonly sign: string;
  /** By MusicXML's name. */
  readonly value: string;
  readonly dots: 0 | 1;
  readonly quarters: number;
}

/** From `at` on, a passage goes no faster than a user wants, or the score's own tempo holds again. */
export interface TempoNotice {
  readonly at: Rational;
  readonly bar: number;
  readonly kind: 'no-faster' | 'as-before';
  readonly quartersPerMinute: number;
  /** What the tempo is told in. */
  readonly unit: TempoUnit;
  /** What stands before the tempo; empty where the score's own holds again. */
  readonly words: string;
}

/** From `at` on, words say who of several players plays, on one staff or (null) on all. */
export interface SharingMark {
  readonly at: Rational;
  readonly bar: number;
  readonly staff: number | null;
  readonly span: Span;
  /** `together`: all of `players` play the same; `divided`: each has notes of their own; `one`: one plays alone. */
  readonly kind: 'together' | 'divided' | 'one';
  /** Numbers of the players, from 1; empty for all of them. */
  readonly players: readonly number[];
  readonly text: string;
}

/** One player's notes of a part that several share. */
export interface PlayerShare {
  /** From 1. */
  readonly player: number;
  /** Ids of the notes that only others play. */
  readonly others: ReadonlySet<string>;
  /** Indices of the bars with notes that nothing tells apart: the player has all of them. */
  readonly unclear: readonly number[];
}

/** Text that structures the page: where a full setting may be wanted. */
export interface Landmark {
  readonly at: Rational;
  readonly bar: number;
  readonly kind: 'rehearsal' | 'tempo';
  readonly text: string;
}

/** A text or sign for every player. */
export interface ScoreText {
  readonly at: Rational;
  readonly bar: number;
  /** `gradual` changes the tempo step by step; `order` says how the music goes on, such as “attacca”. */
  readonly kind: 'movement' | 'rehearsal' | 'tempo' | 'gradual' | 'order' | 'segno' | 'coda';
  /** Note values of metronome marks are characters of SMuFL's range “Metronome marks”; empty for signs. */
  readonly text: string;
  /** As the file says, or as is usual for its kind. */
  readonly bold: boolean;
}

/** A pedal marking found in the file. */
export interface SourceMarking {
  readonly at: Rational;
  readonly bar: number;
  readonly span: Span;
  readonly form: 'harp-pedals' | 'words';
  /** The positions it states; for MEI `harpPedal` always all seven. */
  readonly positions: Readonly<Partial<Record<Letter, Position>>>;
  /** To be prepared ahead of need, as said by words such as “prepare”. */
  readonly ahead: boolean;
  /** It says how things stand before the first note, and is not read again where the music comes back to it. */
  readonly beforeStart?: true;
  readonly text: string;
}

/** Words or a small note that tell of levers; `says` is null where words seem to and are not understood. */
export interface LeverMarking extends Pick<SourceMarking, 'at' | 'bar' | 'span' | 'text'> {
  readonly form: 'words' | 'note';
  readonly says: LeverWords | null;
}

/** Words that seem to name pedals: no position is read from them. */
export type UnreadWords = Pick<SourceMarking, 'at' | 'bar' | 'span' | 'text'>;

/** One thing the user should know about how the file was read. `barNumber` is the printed number, empty for the whole score. */
export interface Remark {
  readonly code:
    | 'harp-chosen'
    | 'tempo-assumed'
    | 'harmonic-assumed'
    | 'lever-signs-read'
    | 'repeat-ill-formed'
    | 'bar-overfull'
    | 'alternative-chosen'
    | 'movement-chosen'
    | 'letter-not-in-font'
    | 'page-turn'
    | 'page-crowded'
    | 'file-markings-replaced'
    | 'accidentals-added'
    | 'fingering-left-out'
    | 'many-ledger-lines'
    | 'letters-left-out'
    | 'accidentals-left-out'
    | 'cues'
    | 'moves-not-printed'
    | 'move-before-mark'
    | 'changes-by-name'
    | 'names-in-english'
    | 'breaks-not-kept'
    | 'laid-out-whole'
    | 'saved-decisions'
    | 'title-cut'
    | 'text-encoding'
    | 'omitted-note-not-marked'
    | 'skipped';
  readonly barNumber: string;
  readonly message: string;
}
