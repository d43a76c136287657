import type { PedalFindingCode } from '../../findings/catalogue.ts';
import type { Rational } from '../../music/rational.ts';
import type { TempoUnit } from '../../score/model/tempo.ts';
import type { SlowPassage } from '../../score/slow-down.ts';
import type { NoteChange, Omitted, Respelled } from '../../sounding/changed-needs.ts';

/** The kinds of fix for what cannot be played, as a composer may choose among them. */
export const FIX_KINDS = {
  respell: 'Notes on strings of another name: nothing is heard otherwise.',
  octave: 'A note an octave higher or lower.',
  'leave-out-doubled': 'A note left out whose name is plucked in another octave at the same time.',
  delay: 'Notes plucked later than they are written, so that the foot can move between.',
  tempo: 'A slower tempo for the place.',
  'second-harp': 'Notes given to a second harp: nothing is heard otherwise.',
  'leave-out': 'A note left out that nothing else gives.',
} as const;

/** One of them. */
export type FixKind = keyof typeof FIX_KINDS;

/** What a fix does to notes of this part. */
export type NoteDeed =
  | { readonly kind: 'respell' | 'octave'; readonly changes: readonly Respelled[] }
  | { readonly kind: 'leave-out-doubled' | 'second-harp'; readonly changes: readonly Omitted[] }
  | { readonly kind: 'leave-out'; readonly changes: readonly NoteChange[] };

/** What a fix does: to notes, to the time of notes, or to the tempo of a passage. */
export type FixDeed =
  | NoteDeed
  | { readonly kind: 'delay'; readonly delay: NoteDelay }
  | { readonly kind: 'tempo'; readonly tempo: TempoLimit };

/** Notes of one chord, by id, that wait until a time. */
export interface NoteDelay {
  readonly notes: readonly string[];
  readonly until: Rational;
}

/** A fix that was planned with: what it is for is then gone, and no other place has become unplayable. */
export type OfferedFix = FixDeed & {
  /** What to do. */
  readonly sentence: string;
  /** What is heard otherwise. */
  readonly heard: string;
  /** Whether nothing is. */
  readonly soundsSame: boolean;
  /** By how many moves the whole plan grows; below zero where it has fewer. */
  readonly moreMoves: number;
  /** By how many places with a warning the whole plan grows; below zero where it has fewer. */
  readonly moreWarnings: number;
  /** Warnings that the plan has then and has not now, by their kind: what cannot be played may have hidden them. */
  readonly warningsThen: readonly WarningLeft[];
  /** How many other places that could not be played become playable with it. */
  readonly alsoFixes: number;
  /** What the ranking goes by, see `fix-weights.ts`. */
  readonly cost: number;
};

/** A kind of warning that a plan leaves where it is playable, and the bars (indices, each once, in order) that have it. */
export interface WarningLeft {
  readonly code: PedalFindingCode;
  readonly bars: readonly number[];
}

/** The fastest tempo at which something works: a whole number of the notes that are counted there a minute. */
export interface TempoLimit {
  readonly quartersPerMinute: number;
  /** The fastest that the score has there, in quarter notes a minute too. */
  readonly written: number;
  /** What it is told in. */
  readonly unit: TempoUnit;
  /** Bars (indices) that are played no faster, the last included. */
  readonly bars: { readonly first: number; readonly last: number };
  /** The same as times. */
  readonly passage: Omit<SlowPassage, 'quartersPerMinute'>;
  /** What of these bars is risky or awkward at that tempo all the same. */
  readonly left: readonly WarningLeft[];
  readonly moreMoves: number;
  readonly moreWarnings: number;
  readonly warningsThen: readonly WarningLeft[];
  readonly alsoFixes: number;
  /** Whether it is proved that no faster whole number works: where both plans are proved the best. */
  readonly proved: boolean;
}

/** One place that cannot be played, and its fixes, the smallest first. */
export interface PlaceFixes {
  readonly code: PedalFindingCode;
  readonly bar: number;
  readonly barNumber: string;
  /** How people are told of the bar. */
  readonly barName: string;
  readonly beat: Rational;
  readonly sentence: string;
  readonly notes: readonly string[];
  readonly offers: readonly OfferedFix[];
}

/** Places of one kind near each other that are offered the same, and these fixes taken at several of them at once. */
export interface PassageFixes {
  readonly code: PedalFindingCode;
  /** Indices of the places, in order; at least two. */
  readonly places: readonly number[];
  readonly sentence: string;
  /** The best first. */
  readonly offers: readonly PassageFix[];
}

/** A fix taken at several places of a passage; `alsoFixes` counts places beside these. */
export type PassageFix = OfferedFix & {
  /** Those of the places of the passage that it is for; at least two. */
  readonly places: readonly number[];
};

/** How many places cannot be played, at one tempo of the whole part. */
export interface TempoStep {
  /** Of the first tempo of the part; the others go with it. */
  readonly quartersPerMinute: number;
  readonly stops: number;
}

/** A place (its bar an index) that is playable at a slower tempo of the whole part, told by its first tempo. */
export interface MendedPlace extends Pick<TempoStep, 'quartersPerMinute'> {
  readonly bar: number;
  readonly beat: Rational;
  /** What the tempo is in that bar then, in quarter notes a minute. */
  readonly there: number;
}

/** How a part goes at slower tempos, every tempo of it slowed alike. */
export interface TempoCourse {
  /** What the tempos are told in: the note that is counted in the first bar. */
  readonly unit: TempoUnit;
  /** The first tempo as written, in quarter notes a minute. */
  readonly written: number;
  /** The score states no tempo: `written` is assumed. */
  readonly isAssumed: boolean;
  /** The fastest first tempo, a whole number of the counted notes, in quarter notes a minute too, at which every place is playable; null where none is. */
  readonly playableUpTo: number | null;
  /** What is risky or awkward at that tempo all the same; empty where there is none. */
  readonly left: readonly WarningLeft[];
  /** Where no tempo makes every place playable: those that some tempo does, in order, with the fastest that was found. */
  readonly mended: readonly MendedPlace[];
  readonly proved: boolean;
  /** From slow to fast: the tempos between which the number of stops changes. */
  readonly steps: readonly TempoStep[];
}

/** What would make a part playable. */
export interface PartFixes {
  readonly places: readonly PlaceFixes[];
  readonly passages: readonly PassageFixes[];
  /** Places that were not tried, for want of time. */
  readonly untried: number;
  readonly tempo: TempoCourse;
  /** Null where it leaves as many places that cannot be played, or is in force already. */
  readonly freeSpelling: FreeSpelling | null;
}

/** The part spelled freely throughout, which no fix of a single place shows. */
export interface FreeSpelling {
  /** Places that cannot be played all the same. */
  readonly stops: number;
  /** Notes that it has on other strings. */
  readonly respelled: number;
  /** Than the part as it is spelled; below zero where there are fewer. */
  readonly moreMoves: number;
}
