import type {
  Decisions,
  HarpLabel,
  Letter,
  NotesAt,
  PartSummary,
  Place,
  Plan,
  Playback,
  Position,
  Rational,
  Remark,
  ScoreFormat,
  TempoUnit,
  Titles,
} from '../../../../engine/index.ts';

/** A bar as the page needs it. */
export interface BarPlace {
  readonly id: string;
  /** How people are told of it (`nameBarIn`). */
  readonly name: string;
  readonly onsetQuarters: number;
  readonly durationQuarters: number;
  /** Length of a beat of its meter. */
  readonly beatQuarters: number;
  /** What tempi are told in there. */
  readonly tempoUnit: TempoUnit;
  /** The numeral of the movement that begins with it; empty elsewhere, and where the part has one movement. */
  readonly opens: string;
  /** The player pauses before it: what is set there is set between two movements. */
  readonly afterPause: boolean;
}

/** A note that asks for a pedal, from its onset until the last of it is plucked. */
export interface PedalNeed {
  readonly letter: Letter;
  readonly position: Position;
  readonly note: string;
  readonly onsetQuarters: number;
  readonly heldUntilQuarters: number;
}

/** What a person calls a note, where it stands, and on which other strings it could be played. */
export interface NotePlace {
  readonly name: string;
  /** Index into the bars. */
  readonly bar: number;
  readonly onset: Rational;
  /** As the user's decisions name it: by the first note of its tie. */
  readonly notes: NotesAt;
  /** The note with which its tie begins: itself where it is plucked. */
  readonly head: string;
  /** Names of the other strings' pitches, such as `D♭4`. */
  readonly others: readonly string[];
}

/** A moment at which a move can be pinned. */
export interface MomentPlace extends Place {
  readonly quarters: number;
}

/** Some of the moments: indices, the end not included. */
export interface MomentRange {
  readonly first: number;
  readonly end: number;
}

/** Where the harp comes in after a rest. */
export interface EntryPlace extends Place {
  /** Whole bars of rest before it. */
  readonly rest: number;
}

/** A harp part that was read: all that the page shows of it, without the source text. */
export interface ReadPart {
  readonly titles: Titles;
  readonly partName: string;
  /** Ids of the part, or of the parts of its two hands. */
  readonly partIds: readonly string[];
  /** The movements of the file by their titles, empty where it names none; null where there is one alone. */
  readonly movements: readonly string[] | null;
  /** All harps of the score; the first is taken where none is named. */
  readonly harps: readonly HarpLabel[];
  /** The other parts of the score that play. */
  readonly others: readonly PartSummary[];
  readonly entries: readonly EntryPlace[];
  readonly format: ScoreFormat;
  readonly compressed: boolean;
  readonly bars: readonly BarPlace[];
  /** By note id. */
  readonly notes: ReadonlyMap<string, NotePlace>;
  /** In order of time. */
  readonly moments: readonly MomentPlace[];
  /** What is heard of it. */
  readonly hearing: Playback;
  readonly remarks: readonly Remark[];
  /** How many markings of its harp the file brings, tringle's own of an earlier time among them. */
  readonly markings: number;
}

/** What was worked out about a part with what the user decided. */
export interface Planning {
  /** In order of onset. */
  readonly needs: readonly PedalNeed[];
  readonly plan: Plan;
  /** For each move of the plan, the moments at which the notes allow it. */
  readonly ranges: readonly MomentRange[];
  /** For each move of the plan, the names of what speaks against its moment, the most first. */
  readonly drawbacks: readonly (readonly string[])[];
  /** What is heard where the user slowed a passage; null where the tempo is as written. */
  readonly slowedHearing: Playback | null;
  /** Ids of the notes that the user leaves out. */
  readonly omitted: ReadonlySet<string>;
  /** The decisions that have their place in this part: what it was planned with, and what the service is sent. */
  readonly inForce: Decisions;
  /** What became of decisions that have no place in this part, in sentences. */
  readonly lost: readonly string[];
}

/** A harp part that was read and planned. */
export type PlannedPart = ReadPart & Planning;
