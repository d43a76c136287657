import type { PlanFindingCode } from '../findings/catalogue.ts';
import type { Finding } from '../findings/model.ts';
import type { HarpKind } from '../harp/harps.ts';
import type { BySide, Side } from '../harp/side.ts';
import type { OneTime } from '../score/bars/one-time.ts';
import type { Score } from '../score/model/score.ts';

/**
 * How hard a part is to play, the easiest first. No scale for this is published: the grades and the thresholds between
 * them are our own (common practice, no source).
 */
export const GRADES = ['easy', 'moderate', 'hard', 'very-hard'] as const;

/** How hard a passage or a whole part is; whether it can be played as printed is another matter. */
export type Grade = (typeof GRADES)[number];

/** How hard a part is, as a whole and passage by passage. */
export interface Difficulty {
  /** That of the hardest passages, or the one below where such passages are rare (`RARE_SHARE`). */
  readonly grade: Grade;
  /** Whether no place is left that cannot be played as printed. */
  readonly playable: boolean;
  /** Who can play it as printed, in words: feet and hands. */
  readonly verdict: string;
  /** What the verdict is about. */
  readonly failing: FailingBars;
  /** Why: at least one. */
  readonly causes: readonly Cause[];
  /** The causes as sentences. */
  readonly reasons: readonly string[];
  readonly measures: Measures;
  /** In order; bars in which the harp has nothing to play belong to none. */
  readonly passages: readonly PassageDifficulty[];
}

/** How hard one passage is. */
export interface PassageDifficulty {
  /** Indices of the first and the last of its bars. */
  readonly from: number;
  readonly until: number;
  readonly grade: Grade;
  /** Whether it has no place that cannot be played as printed. */
  readonly playable: boolean;
  readonly causes: readonly Cause[];
  /** The causes as sentences. */
  readonly reasons: readonly string[];
  readonly measures: Measures;
}

/** A measure that can make a passage hard. */
export type GradedMeasure = Exclude<keyof Measures, 'seconds' | 'changes' | 'changesPerMinute'>;

/** One reason for a grade. */
export type Cause =
  | {
      readonly kind: 'measure';
      readonly name: GradedMeasure;
      readonly measures: Measures;
      /** Names of the first and the last bar of its passage (`nameEndsIn`); null where it is the passage that is told of. */
      readonly bars: { readonly from: string; readonly until: string } | null;
    }
  | { readonly kind: 'easy'; readonly measures: Measures }
  | { readonly kind: 'unplayable'; readonly failing: FailingBars }
  /** So many of the passages have the grade of the hardest. */
  | { readonly kind: 'share'; readonly passages: number; readonly of: number; readonly grade: Grade };

/** Bars that cannot be played as printed, by what fails there. */
export interface FailingBars {
  readonly feet: number;
  readonly hands: number;
  readonly strings: number;
  /** Name of the first of them (`nameBarIn`); null where there is none. */
  readonly first: string | null;
}

/** What is counted, each printed bar once. A change is a move of a pedal, or of a lever on the lever harp. */
export interface Measures {
  /** Clock time of the bars in which the harp plays. */
  readonly seconds: number;
  readonly changes: number;
  /** For each minute that the harp plays. */
  readonly changesPerMinute: number;
  readonly mostInTenSeconds: number;
  /** The least time in seconds between two changes of one foot, or of one hand at the levers; null below two changes. */
  readonly shortestSpacing: BySide<number | null>;
  /** The share, from 0 to 1, of changes that fall together with the note that needs them. */
  readonly atThePluck: number;
  /** Changes that bend a string that is still sounding. */
  readonly stringsBent: number;
  /** Bars in which a hand has too many notes, too wide a chord or too many harmonics. */
  readonly barsOverloaded: BySide<number>;
  /** Moments at which both feet move, or one foot moves two pedals. */
  readonly feetTogether: number;
  readonly notesPerSecond: number;
}

/** One change, in printed order. */
export interface TimedChange {
  /** The foot, or the hand at the levers. */
  readonly side: Side;
  /** Index into the score's bars. */
  readonly bar: number;
  /** Clock time from the start, in printed order. */
  readonly seconds: number;
  readonly atThePluck: boolean;
  readonly bendsString: boolean;
  /** The one time of playing at which it is made; null where it is each time. */
  readonly onlyAt: OneTime | null;
}

/** A planned part, as far as it tells how hard it is. */
export interface PlannedDifficulty {
  readonly harp: HarpKind;
  readonly score: Score;
  /** Clock time of a score time in printed order. */
  readonly secondsAt: (at: Score['bars'][number]['onset']) => number;
  /** In order of time. */
  readonly changes: readonly TimedChange[];
  readonly findings: readonly Finding<PlanFindingCode>[];
  readonly omitted: ReadonlySet<string>;
}
