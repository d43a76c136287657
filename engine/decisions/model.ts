import type { LeverPosition } from '../harp/lever-pin.ts';
import type { PositionName } from '../harp/setting.ts';
import type { Letter } from '../music/pitch.ts';
import { TEMPO_LIMITS } from '../score/slow-down.ts';

/** A place in a score: a printed bar by its index from 0, and the beat from 1 as a fraction: `5/2`. */
export interface Place {
  readonly barIndex: number;
  readonly beat: string;
}

/** Something about the plan that the user fixed. */
export type DecisionPin =
  /** The pedal stands so from one place until just before another, or to the end. */
  | {
      readonly kind: 'position';
      readonly pedal: Letter;
      readonly position: PositionName;
      readonly from: Place;
      readonly until: Place | null;
    }
  /** The pedal moves to this position exactly here. */
  | {
      readonly kind: 'move';
      readonly pedal: Letter;
      readonly position: PositionName;
      readonly at: Place;
    }
  /** The lever of a string (`F4`) stands so from one place until just before another, or to the end. */
  | {
      readonly kind: 'lever-position';
      readonly lever: string;
      readonly to: LeverPosition;
      readonly from: Place;
      readonly until: Place | null;
    }
  /** The lever of a string is set exactly here, by that hand if one is named. */
  | {
      readonly kind: 'lever-move';
      readonly lever: string;
      readonly to: LeverPosition;
      readonly at: Place;
      readonly hand?: 'left' | 'right';
    }
  /** No pedal moves and no lever is set in this span. */
  | { readonly kind: 'forbid'; readonly from: Place; readonly until: Place };

/** The notes that are written for one string (`C♯4`) and begin at one place. */
export interface NotesAt extends Place {
  readonly pitch: string;
  /** Those of one staff alone, the upper being 1: told where both hands have the pitch at once. */
  readonly staff?: number;
  /**
   * Told where a grace note and another note have the pitch at one place: which of the grace notes there, the first
   * being 1, or 0 for the note that they lead to.
   */
  readonly grace?: number;
}

/**
 * What a user decided about a part beyond options: it can be sent with a score, kept in a browser, and saved into the
 * score file. Notes and places are told by bar, beat and pitch, so that it outlives changes elsewhere in the file.
 */
export interface Decisions {
  readonly pins: readonly DecisionPin[];
  /** Notes to be played on the string of another name, or an octave or two away. */
  readonly respell: readonly (NotesAt & { readonly to: string })[];
  /** Notes that the player leaves out. */
  readonly omit: readonly NotesAt[];
  /** Places where a full setting is printed, or is not, whatever the occasions say. */
  readonly fullSettings: readonly (Place & { readonly print: boolean })[];
  /** What is shown small before an entry of the harp: another part by its id or name, or nothing. */
  readonly cueParts: readonly (Place & { readonly part: string | null })[];
  /** Notes that are plucked later than they are written: with another note, or on a beat, while they would still sound. */
  readonly delays: readonly DelayDecision[];
  /** Passages that are played no faster than a tempo, to just before another place or to the end. */
  readonly tempos: readonly TempoDecision[];
}

/** Notes that are plucked later than they are written, on a beat of the same bar, from 1 as a fraction: `5/2`. */
export type DelayDecision = NotesAt & { readonly toBeat: string };

/** A passage that is played no faster than a tempo. */
export interface TempoDecision {
  readonly from: Place;
  readonly until: Place | null;
  readonly quartersPerMinute: number;
}

/** Pins that only the lever harp can follow. */
export type LeverDecisionPin = Extract<DecisionPin, { readonly kind: 'lever-move' | 'lever-position' }>;
/** Pins that only the pedal harp can follow. */
export type PedalDecisionPin = Extract<DecisionPin, { readonly kind: 'move' | 'position' }>;

/** Which harp can follow a pin. */
export const harpOfPin = (kind: DecisionPin['kind']): 'pedal' | 'lever' | 'both' =>
  kind === 'forbid' ? 'both' : kind === 'lever-move' || kind === 'lever-position' ? 'lever' : 'pedal';

/** One list of decisions. */
export type DecisionList = keyof Decisions;

/** The lists that a user’s decisions are kept in, by their names in requests and files. */
export const DECISION_LISTS = [
  'pins',
  'respell',
  'omit',
  'delays',
  'fullSettings',
  'cueParts',
  'tempos',
] as const satisfies readonly DecisionList[];

/** How much decisions may hold: far more than any part asks for, little enough to be read in no time. */
export const DECISION_LIMITS = {
  entries: 10_000,
  barIndex: 1_000_000,
  pitchLength: 40,
  partLength: 200,
  staff: 99,
  grace: 999,
  ...TEMPO_LIMITS,
} as const;

/** How beats and score times are written: a whole number or a fraction. */
export const BEAT_TEXT = /^\d{1,9}(\/[1-9]\d{0,5})?$/;

/** A part as it is before anything is decided. */
export const NO_DECISIONS: Decisions = {
  pins: [],
  respell: [],
  omit: [],
  delays: [],
  fullSettings: [],
  cueParts: [],
  tempos: [],
};

/** Whether nothing was decided. */
export const hasNoDecisions = (decisions: Decisions): boolean =>
  DECISION_LISTS.every((list) => decisions[list].length === 0);
