import type { Rational } from '../../music/rational.ts';
import type { Span } from '../../xml/tree.ts';

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

/** A sign of a jump; by labels several of a kind are told apart. */
export type Jump =
  | { readonly kind: 'segno' | 'coda'; readonly label: string }
  | { readonly kind: 'to-coda'; readonly label: string }
  | { readonly kind: 'da-capo' }
  | { readonly kind: 'dal-segno'; readonly label: string }
  | { readonly kind: 'fine' };
