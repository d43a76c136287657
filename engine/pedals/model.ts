import type { Difficulty } from '../difficulty/model.ts';
import type { PedalFinding } from '../findings/catalogue.ts';
import type { HarpString } from '../harp/profile.ts';
import type { Foot, Position, Setting } from '../harp/setting.ts';
import type { Letter, Pitch } from '../music/pitch.ts';
import type { Rational } from '../music/rational.ts';
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
  readonly leftOut: readonly string[];
  /** Respellings that would save moves or mend a place; only where spelling was to be suggested. */
  readonly suggestions: readonly SpellingSuggestion[];
  /** What to tune the strings without discs to before the piece. */
  readonly tunings: readonly StringTuning[];
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
  /** The foot with more moves, and the bar (index) in which it moves most often; null where nothing moves. */
  readonly busiest: { readonly foot: Foot; readonly bar: number; readonly movesInBar: number } | null;
  /** Whether no finding of severity `stop` remains. */
  readonly playable: boolean;
  /** Index of the earliest bar that cannot be played as printed. */
  readonly firstFailure: number | null;
  readonly difficulty: Difficulty;
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
  readonly window: MoveWindow;
  /** What speaks against this moment, each in the unit of the weights, over and above the price of a move itself. */
  readonly cost: readonly CostTerm[];
}

export interface StringTuning {
  readonly string: HarpString;
  readonly alter: Position;
}
