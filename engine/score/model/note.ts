import type { Side } from '../../harp/side.ts';
import type { Pitch } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';
import type { Span } from '../../xml/tree.ts';

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
