import { group } from '../../group.ts';
import type { Letter } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';
import type { Span, XmlElement } from '../../xml/tree.ts';
import type { Meter } from '../model/bar.ts';
import type { Tremolo } from '../model/note.ts';
import type { Transposition } from './definitions.ts';
import type { KeySignature } from './notes/keys.ts';

/** The pitch of a note as the file writes it, before key, bar accidentals, octave lines and transposition. */
export interface WrittenPitch {
  readonly letter: Letter;
  readonly octave: number;
  /** Semitones of a printed accidental. */
  readonly accidental: number | undefined;
  /** Semitones that sound (`accid.ges`). */
  readonly performedAlter: number | undefined;
  readonly performedLetter: Letter | undefined;
  readonly performedOctave: number | undefined;
}

/** A mark that links a note to the next: initial, medial, terminal. */
export type LinkPosition = 'i' | 'm' | 't';

/** A notehead as found in a layer. What depends on other bars or on marks beside the staff is worked out later. */
export interface NoteDraft {
  readonly id: string;
  readonly span: Span;
  readonly bar: number;
  /** 1 is the harp's upper staff. */
  readonly staff: number;
  /** The `n` of the layer that holds it; `voice` is the staff's and the layer's. */
  readonly layer: string;
  readonly voice: string;
  readonly onset: Rational;
  readonly duration: Rational;
  readonly grace: { readonly slashed: boolean } | null;
  readonly written: WrittenPitch;
  readonly chord: string;
  readonly role: 'played' | 'cue' | 'hidden';
  readonly tie: LinkPosition | null;
  readonly gliss: LinkPosition | null;
  /** Slurs that begin, go on and end here, by the attribute: `i1`, `m1`, `t1`. */
  readonly slurs: readonly string[];
  readonly fermata: boolean;
  readonly ornament: string | null;
  readonly tremolo: Tremolo | null;
  /** Its head is a diamond. */
  readonly diamond: boolean;
  readonly harmonic: boolean;
  readonly letRing: boolean;
  readonly damp: 'damp' | 'damp-all' | null;
  readonly stem: 'up' | 'down' | null;
  readonly beam: string | null;
  /** The note that a repeat sign stands for. */
  readonly copyOf: NoteDraft | null;
}

/** What an id in the music stands for: a place in time, and the harp's notes there (a chord has several). */
export interface Anchor {
  readonly bar: number;
  /** The `n` of the staff whose `staff` element holds it. */
  readonly staff: string;
  readonly onset: Rational;
  /** It is a note or chord, the harp's or another's. */
  readonly isNote: boolean;
  readonly notes: readonly NoteDraft[];
}

/** A key signature that stands inside a bar. */
export interface KeyChange {
  readonly at: Rational;
  readonly key: KeySignature;
}

/** One staff of the harp in one bar. */
export interface StaffBar {
  readonly key: KeySignature;
  readonly keyChanges: readonly KeyChange[];
  readonly transposition: Transposition;
}

/** An element beside the music that acts on it. `at` is set where it stood inside a layer. */
export interface Control {
  readonly element: XmlElement;
  readonly bar: number;
  /** The `n` of the staff element that holds it; null for a child of the measure. */
  readonly staff: string | null;
  readonly at: Rational | null;
}

export interface BarDraft {
  readonly index: number;
  readonly number: string;
  readonly id: string;
  readonly element: XmlElement;
  readonly onset: Rational;
  readonly duration: Rational;
  readonly meter: Meter;
  readonly keyFifths: number;
  readonly endings: readonly number[];
  /** The harp's staves from the top. */
  readonly staves: readonly StaffBar[];
}

/** Notes by the index of their bar, in the order given. */
export const groupByBar = (notes: readonly NoteDraft[]): ReadonlyMap<number, readonly NoteDraft[]> =>
  group(notes, ({ bar }) => bar);
