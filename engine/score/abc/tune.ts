import type { KeyMode } from '../../music/key-names.ts';
import type { Letter, Pitch } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';

/** A tune as it is written out in MEI or MusicXML. Times are quarter notes. */
export interface Tune {
  readonly titles: readonly string[];
  readonly composer: string;
  /** Fields of the file that are about the tune and stand in no other place, by their letter: source, region, notes. */
  readonly fields: readonly TuneField[];
  readonly staves: readonly TuneStaff[];
  readonly bars: readonly TuneBar[];
  readonly spans: readonly TuneSpan[];
}

export interface TuneField {
  readonly letter: string;
  readonly text: string;
}

/** A staff: empty name where the file gives none. */
export interface TuneStaff {
  readonly name: string;
  readonly clef: Clef;
}

/** Shape and line of a clef; `octaves` is 1 where it sounds an octave higher than it looks. */
export interface Clef {
  readonly shape: 'G' | 'F' | 'C' | 'perc';
  readonly line: number;
  readonly octaves: -1 | 0 | 1;
}

/** `alters` is what ABC makes of each letter; `printed` the signature on the page, in fifths; `mode` as scores name it. */
export interface TuneKey {
  readonly mode: NonNullable<KeyMode> | null;
  readonly alters: ReadonlyMap<Letter, number>;
  readonly printed: number;
}

export interface TuneMeter {
  /** As written, such as `2+3`. */
  readonly count: string;
  readonly unit: number;
  readonly symbol: 'common' | 'cut' | null;
  /** Quarter notes in a bar. */
  readonly length: Rational;
}

export type BarLine = 'single' | 'double' | 'end' | 'repeat' | 'dotted' | 'invisible';

export interface TuneBar {
  /** Bars that lead to the first, or finish the one before, take no number. */
  readonly number: number | null;
  /** From this bar on; null where it stays. */
  readonly key: TuneKey | null;
  readonly meter: TuneMeter | null;
  /** Whether bars are measured at all. */
  readonly measured: boolean;
  readonly clefs: readonly { readonly staff: number; readonly clef: Clef }[];
  readonly startsRepeat: boolean;
  readonly right: BarLine;
  readonly ending: { readonly numbers: string; readonly starts: boolean; readonly ends: boolean } | null;
  /** A new line of the file begins here. */
  readonly newLine: boolean;
  readonly length: Rational;
  readonly marks: readonly BarMark[];
  readonly layers: readonly TuneLayer[];
}

/** What stands above the music at a time of the bar. */
export type BarMark = { readonly at: Rational } & (
  | { readonly kind: 'part'; readonly text: string }
  | { readonly kind: 'text'; readonly text: string }
  | {
      readonly kind: 'tempo';
      readonly text: string;
      readonly beat: NoteValue | null;
      readonly perMinute: number;
    }
  | { readonly kind: 'jump'; readonly jump: Jump; readonly text: string }
);

export type Jump = 'segno' | 'coda' | 'to-coda' | 'fine' | 'da-capo' | 'dal-segno';

export interface TuneLayer {
  /** From 1. */
  readonly staff: number;
  readonly voice: number;
  readonly events: readonly TuneEvent[];
}

/** A note head's shape and dots: `unit` 4 is a quarter note. */
export interface NoteValue {
  readonly unit: number;
  readonly dots: number;
}

/** `count` notes in the time of `inTimeOf`. */
export interface Tuplet {
  readonly count: number;
  readonly inTimeOf: number;
}

export interface TuneEvent {
  readonly id: string;
  readonly kind: 'note' | 'rest' | 'bar-rest' | 'space';
  /** From the start of the bar. */
  readonly onset: Rational;
  readonly length: Rational;
  readonly value: NoteValue;
  /** From the lowest as written; empty for rests. */
  readonly pitches: readonly TunePitch[];
  readonly graces: readonly TuneGrace[];
  /** Its heads are diamonds. */
  readonly diamond: boolean;
  /** The same object for all notes of a group. */
  readonly tuplet: Tuplet | null;
  /** The same number for all notes of a beam. */
  readonly beam: number | null;
  readonly signs: readonly Sign[];
  readonly chordSymbols: readonly string[];
  readonly texts: readonly { readonly text: string; readonly below: boolean }[];
  /** One for each verse. */
  readonly lyrics: readonly Syllable[];
}

export interface TunePitch {
  readonly pitch: Pitch;
  /** Whether its accidental is printed. */
  readonly accidental: boolean;
  readonly tieStarts: boolean;
  readonly tieEnds: boolean;
}

export interface TuneGrace {
  /** A diamond without a length, as a lever is shown; else a grace note. */
  readonly diamond: boolean;
  readonly pitch: Pitch;
  readonly accidental: boolean;
  readonly value: NoteValue;
  readonly slashed: boolean;
}

export interface Syllable {
  readonly text: string;
  readonly goesOn: 'hyphen' | 'line' | null;
}

/** A sign at a note. */
export type Sign =
  | { readonly kind: 'articulation'; readonly name: Articulation }
  | { readonly kind: 'ornament'; readonly name: OrnamentName }
  | { readonly kind: 'fermata' }
  | { readonly kind: 'arpeggio' }
  | { readonly kind: 'dynamic'; readonly text: string }
  | { readonly kind: 'finger'; readonly text: string };

export type Articulation =
  | 'staccato'
  | 'tenuto'
  | 'accent'
  | 'marcato'
  | 'staccatissimo'
  | 'up-bow'
  | 'down-bow';

export type OrnamentName = 'trill' | 'mordent' | 'inverted-mordent' | 'turn' | 'inverted-turn';

/** What goes from one note to another. */
export interface TuneSpan {
  readonly kind: 'slur' | 'crescendo' | 'diminuendo' | 'glissando';
  readonly from: string;
  readonly to: string;
  /** Index of the bar of `from`. */
  readonly bar: number;
}
