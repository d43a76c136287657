import type { HarpString } from '../harp/profile.ts';
import type { Foot, Position, Setting } from '../harp/setting.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';

/** What the feet do, and what the player, engraver or composer should know. */
export interface Plan {
  /** The setting before the first note. */
  readonly initial: Setting;
  /** In order of time; at one moment the left foot's move before the right foot's. */
  readonly moves: readonly Move[];
  readonly findings: readonly Finding[];
  /** Notes that are played on another string than written: double accidentals, those that free spelling moved, and
   * those for which the user chose a string. */
  readonly respellings: readonly Respelling[];
  /** Ids of the notes that the player leaves out, in order; with a note all that is tied to it. */
  readonly leftOut: readonly string[];
  /** Respellings that would save moves or mend a place; only where spelling was to be suggested. */
  readonly suggestions: readonly SpellingSuggestion[];
  /** What to tune the strings without discs to before the piece. */
  readonly tunings: readonly Tuning[];
  /** The least time between two moves of one foot, in seconds, that the plan was made for. */
  readonly footRestSeconds: number;
  readonly summary: PlanSummary;
}

/** The plan in figures. */
export interface PlanSummary {
  readonly moves: number;
  /** The fewest moves that any plan for these notes could have if the feet needed no time. */
  readonly leastMoves: number;
  /** Whether it was proved that no plan is better; else the search was given up, and the best plan found is given. */
  readonly proved: boolean;
  /** The foot with more moves, and the bar (index) with most moves; null where nothing moves. */
  readonly busiest: { readonly foot: Foot; readonly bar: number; readonly movesInBar: number } | null;
  /** Whether no finding of severity `stop` remains. */
  readonly playable: boolean;
  /** Index of the earliest bar that cannot be played as printed. */
  readonly firstFailure: number | null;
}

/** Notes that could be read as another string, and what that would save. */
export interface SpellingSuggestion {
  readonly notes: readonly string[];
  readonly from: Pitch;
  readonly to: Pitch;
  readonly savesMoves: number;
  /** How many places that cannot be played would become playable. */
  readonly mendsPlaces: number;
}

/** One pedal goes from one position to another at one moment. */
export interface Move {
  readonly letter: Letter;
  readonly foot: Foot;
  readonly from: Position;
  readonly to: Position;
  readonly at: Rational;
  /** Index into the score's bars. */
  readonly bar: number;
  /** Beat within the bar, from 1, in beats of the meter. */
  readonly beat: Rational;
  /** Id of the grace note before which the move is made; null where it is made at an onset or a beat. */
  readonly graceNote: string | null;
  /** It brings a pedal back where the music jumps here; read on from the bar before, the pedal is there already. */
  readonly restores: boolean;
  readonly window: Window;
  /** What speaks against this moment, each in the unit of the weights, over and above the price of a move itself. */
  readonly cost: readonly CostTerm[];
}

/** The span in which a move must be made. */
export interface Window {
  /** Id of the last note that needs the old position, and its onset; null where nothing needed it before. */
  readonly after: { readonly note: string; readonly onset: Rational } | null;
  /** Id of the first note that needs the new position, and its onset; null where it comes only after a jump. */
  readonly before: { readonly note: string; readonly onset: Rational } | null;
}

export interface CostTerm {
  readonly name: string;
  readonly amount: number;
}

/** A note that is played on another string than written. */
export interface Respelling {
  readonly note: string;
  readonly from: Pitch;
  readonly to: Pitch;
}

export interface Tuning {
  readonly string: HarpString;
  readonly alter: Position;
}

export type Severity = 'stop' | 'warn' | 'note';

export type FindingCode =
  | 'foot-too-busy'
  | 'pedal-in-two-positions'
  | 'string-in-two-pitches'
  | 'out-of-range'
  | 'fixed-string-tuning'
  | 'fixed-string-in-two-pitches'
  | 'double-accidental'
  | 'played-on-other-string'
  | 'quarter-tone'
  | 'string-retuned'
  | 'pitch-lost-by-retuning'
  | 'ringing-string-moved'
  | 'glissando-setting-guessed'
  | 'pedals-together'
  | 'foot-crossed'
  | 'pin-not-honoured'
  | 'string-for-both-hands'
  | 'too-many-notes-in-hand'
  | 'stretch-too-wide'
  | 'string-restruck-fast'
  | 'harmonic-out-of-range'
  | 'too-many-harmonics'
  | 'marking-contradicts-notes'
  | 'flat-key-rings-fuller'
  | 'repeat-restored';

/** One thing to know: what, where, why, and what would mend it. */
export interface Finding {
  readonly code: FindingCode;
  /** `stop`: cannot be played as printed; `warn`: risky or unidiomatic; `note`: good to know. */
  readonly severity: Severity;
  /** Index into the score's bars, and its printed number. */
  readonly bar: number;
  readonly barNumber: string;
  readonly beat: Rational;
  readonly staff: number | null;
  readonly notes: readonly string[];
  readonly sentence: string;
  readonly suggestions: readonly string[];
  /** Changes to notes that would mend it, each as a whole; each is also told among the suggestions. */
  readonly mends: readonly Mend[];
}

/** A set of changes to notes that mends a place together. */
export interface Mend {
  readonly sentence: string;
  readonly changes: readonly NoteChange[];
}

/** One change to a note that would help. */
export type NoteChange =
  | { readonly kind: 'respell'; readonly note: string; readonly from: Pitch; readonly to: Pitch }
  | { readonly kind: 'leave-out'; readonly note: string; readonly from: Pitch };
