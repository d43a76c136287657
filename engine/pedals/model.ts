import type { Difficulty } from '../difficulty/model.ts';
import type { PedalFinding } from '../findings/model.ts';
import type { HarpString } from '../harp/profile.ts';
import type { RetunedString } from '../harp/scordatura.ts';
import type { Foot, Position, Setting } from '../harp/setting.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
import type { NoteChange } from '../sounding/changed-needs.ts';
import type { Respelling } from '../sounding/respelling.ts';
import type { CostTerm, MoveWindow } from '../time/window.ts';

/** What the feet do, and what the player, engraver or composer should know. */
export interface Plan {
  /** The setting before the first note. */
  readonly initial: Setting;
  /** In order of time; at one moment the left foot's move before the right foot's. */
  readonly moves: readonly Move[];
  readonly findings: readonly PedalFinding[];
  /** Notes that are played on another string than written: double accidentals, those that free spelling moved, and
   * those for which the user chose a string. */
  readonly respellings: readonly Respelling[];
  /** Ids of the notes that the player leaves out, in order; with a note all that is tied to it. */
  readonly omitted: readonly string[];
  /** Respellings that would save moves or fix a place; only where spelling was to be suggested. */
  readonly suggestions: readonly SpellingSuggestion[];
  /** What to tune the strings without discs to before the piece. */
  readonly tunings: readonly StringTuning[];
  /** Strings that the user tunes away from their own pitch before the piece, the lowest first. */
  readonly retuned: readonly RetunedString[];
  /** The least time between two moves of one foot, in seconds, that the plan was made for. */
  readonly footRestSeconds: number;
  readonly summary: PlanSummary;
}

/** The plan in figures. */
export interface PlanSummary {
  readonly moves: number;
  /** No plan that can be played has fewer moves: for these notes as they are spelled, or, where the spelling is free, in
   * any spelling that could have been chosen. As many as `moves` where this plan is proved to have the fewest. */
  readonly minMoves: number;
  /** Whether it was proved that no plan is better; else the search was given up, and the best plan found is given. */
  readonly provenOptimal: boolean;
  /** The foot with more moves, and the bar (index) in which it moves most often; null where nothing moves. */
  readonly busiest: { readonly foot: Foot; readonly bar: number; readonly movesInBar: number } | null;
  /** Whether no finding of severity `stop` remains. */
  readonly playable: boolean;
  /** Index of the earliest bar that cannot be played as printed. */
  readonly firstFailure: number | null;
  readonly difficulty: Difficulty;
}

/** Notes of one letter that could be read as those of another, by their ids; `from` and `to` are those of the first. */
export interface SuggestedRun {
  readonly notes: readonly string[];
  /** The octaves in which they are written, from below. */
  readonly octaves: readonly number[];
  readonly from: Pitch;
  readonly to: Pitch;
}

/** Notes that could be read as other strings, all of them together, and what that would save. */
export interface SpellingSuggestion extends SuggestedRun {
  /** The notes that make room for them on other strings again. */
  readonly alongside: readonly SuggestedRun[];
  /** What to change: every note of them, each to the string that gives its own octave. */
  readonly changes: readonly NoteChange[];
  /** Below zero where it costs moves. */
  readonly savesMoves: number;
  /** How many places that cannot be played would become playable. */
  readonly fixesPlaces: number;
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
  /** Where people are told that it is made (`toldAtIn`): the beat within the bar, from 1, in beats of the meter. */
  readonly beat: Rational;
  /** Whether a pin, or a marking that is kept, has it at this moment. */
  readonly pinned: boolean;
  /** Id of the grace note before which the move is made; null where it is made at an onset or a beat. */
  readonly graceNote: string | null;
  /** It brings a pedal back where the music jumps here; read on from the bar before, the pedal is there already. */
  readonly restores: boolean;
  readonly window: MoveWindow;
  /**
   * What was paid for the move over and above the price of a move itself, in the unit of the weights. With the price of
   * each move, and `startsElsewhere` for each pedal that the piece begins elsewhere, the sum is what the plan was
   * chosen by; a move that the other foot took over no longer holds what it paid for want of time.
   */
  readonly cost: readonly CostTerm[];
}

/** A string without a disc, and what it is tuned to before the piece: `alter` in semitones from the natural. */
export interface StringTuning {
  readonly string: HarpString;
  readonly alter: Position;
}
