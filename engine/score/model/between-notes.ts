import type { Position } from '../../harp/setting.ts';
import type { Letter } from '../../music/pitch.ts';
import type { Rational } from '../../music/rational.ts';
import type { Span } from '../../xml/tree.ts';

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
